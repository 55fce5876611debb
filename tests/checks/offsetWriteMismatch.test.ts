import { testRule } from './rulePrograms.ts';
import { shopProfile } from './shopProfile.ts';
import { slopingCorner, slopingCornerMacro, slopingFace } from './turnedFaces.ts';

const down = 'G21 G90 G94 G54\nG0 Z5\nG38.2 Z-10 F40\n';
const bore =
  'G21 G90 G94 G54\nG0 X0 Y0\nG38.2 X20 F40\n#<right> = #5061\nG0 X0\nG38.2 X-20\n#<left> = #5061\nG0 X0\n';

testRule(
  'offset-write-mismatch',
  [
    [
      'G10 L20 of a called result with the origin added',
      'rs274ngc',
      'o<top> sub\n  o1 if [#1 GT 0]\n    G38.2 Z-10 F40\n    #<_top> = #5063\n  o1 else\n    #<_top> = 0\n  o1 endif\n  G0 Z5\no<top> endsub\nG21 G90 G94 G54\nG0 Z5\no<top> call [#<_deep>]\nG10 L20 P1 Z[#5223 + #<_top>] ;! offset-write-mismatch\nM2\n',
    ],
    [
      'a plain number for G10 L2 where the second pass of a loop has found the middle',
      'rs274ngc',
      'G21 G90 G94 G54\nG0 X0 Y0 Z-5\n#<cx> = 0\n#<n> = 0\no1 while [#<n> LT 2]\n  G38.2 X[#<cx> + 20] F40\n  #<right> = #5061\n  G0 X#<cx>\n  G38.2 X[#<cx> - 20]\n  #<left> = #5061\n  #<cx> = [[#<right> + #<left>] / 2]\n  G0 X#<cx>\n  #<n> = [#<n> + 1]\no1 endwhile\nG10 L2 P1 X0 ;! offset-write-mismatch\nM2\n',
    ],
    [
      'a corner whose face is counted from another touch than was taken',
      'rs274ngc',
      `${slopingCorner}#<x> = [#<near> - #<slope> * [#<beside> + 20] + 1.985 * SQRT[1 + #<slope> * #<slope>]]\n#<y> = [#<left> - #<rise> * [#<at> + 30] + 1.985 * SQRT[1 + #<rise> * #<rise>]]\n#<cx> = [[#<x> + #<slope> * #<y>] / [1 - #<slope> * #<rise>]]\nG10 L2 P1 X[#5221 + #<cx>] Y[#5222 + #<y> + #<rise> * #<cx>] ;! offset-write-mismatch\nM2\n`,
      shopProfile,
    ],
    [
      'a corner with the wrong sign of a way along its face',
      'macro',
      `${slopingCornerMacro}#107=#101+#105*10.+1.985*SQRT[1.+#105*#105]\n#108=#103-#106*10.+1.985*SQRT[1.+#106*#106]\n#109=[#107+#105*#108]/[1.-#105*#106]\n#5222=#5222+#108+#106*#109\n#5221=#5221+#109 ;! offset-write-mismatch\nM30\nN9 #3000=1(NO CONTACT)\n`,
      shopProfile,
    ],
    [
      'a work coordinate for G10 L2',
      'rs274ngc',
      `${down}G0 Z5\nG10 L2 P1 Z#5063 ;! offset-write-mismatch\nM2\n`,
    ],
    [
      'for G10 L2 of the active offset',
      'rs274ngc',
      `${down}#<top> = [#5063 - 0.5]\nG0 Z5\nG10 L2 P0 Z#<top> ;! offset-write-mismatch\nM2\n`,
    ],
    [
      'a middle that nobody halved',
      'rs274ngc',
      `${bore}G10 L2 P1 X[#5221 + #<right> + #<left>] ;! offset-write-mismatch\nM2\n`,
    ],
    [
      'the wrong sign in G10 L20',
      'rs274ngc',
      `${bore}#<middle> = [[#<right> + #<left>] / 2]\nG10 L20 P1 X#<middle> ;! offset-write-mismatch\nM2\n`,
    ],
    [
      'in a called sub',
      'rs274ngc',
      'o<top> sub\n  G38.2 Z-10 F40\n  G0 Z5\n  G10 L2 P1 Z#5063 ;! offset-write-mismatch\no<top> endsub\nG21 G90 G94 G54\nG0 Z5\no<top> call\nM2\n',
    ],
    [
      'the origin of another offset',
      'macro',
      'G21 G90 G94 G54\nG0 Y-20.\nG31 Y20. F40.\nIF[#5062GT19.9]GOTO9\n#101=#5062+1.993\nG0 Y-20.\nG10 L2 P2 Y[#5242+#101] ;! offset-write-mismatch\nM30\nN9 #3000=1(NO CONTACT)\n',
    ],
    [
      'a work coordinate in the parameter',
      'macro',
      'G21 G90 G94 G54\nG0 Z5.\nG31 Z-20. F40.\nIF[#5063LT-19.9]GOTO9\n#101=#5063\nG0 Z5.\n#5223=#101 ;! offset-write-mismatch\nM30\nN9 #3000=1(NO CONTACT)\n',
    ],
    [
      'the origin by index, subtracted',
      'macro',
      'G21 G90 G94\n#1=#4014-53\nG0 Z5.\nG31 Z-20. F40.\nIF[#5063LT-19.9]GOTO9\n#101=#5063\nG0 Z5.\nG10 L2 P#1 Z[#[5203+20*#1]-#101] ;! offset-write-mismatch\nM30\nN9 #3000=1(NO CONTACT)\n',
    ],
    [
      'a distance where a place is wanted',
      'rs274ngc',
      'G21 G90 G94 G54\n#<at> = #<_x>\nG38.2 X20 F40\n#<edge> = [#5061 + 2]\nG0 X0\nG10 L2 P1 X[#<at> - #<edge>] ;! offset-write-mismatch\nM2\n',
    ],
    [
      'a slope with the wrong sign',
      'rs274ngc',
      `${slopingCorner}#<x> = [#<near> + #<slope> * #<beside> + 1.985 * SQRT[1 + #<slope> * #<slope>]]\n#<y> = [#<left> - #<rise> * [#<at> + 30] + 1.985 * SQRT[1 + #<rise> * #<rise>]]\n#<cx> = [[#<x> + #<slope> * #<y>] / [1 - #<slope> * #<rise>]]\nG10 L2 P1 X[#5221 + #<cx>] ;! offset-write-mismatch\nM2\n`,
      shopProfile,
    ],
    [
      'the other face on the wrong side',
      'rs274ngc',
      `${slopingCorner}#<x> = [#<near> - #<slope> * #<beside> + 1.985 * SQRT[1 + #<slope> * #<slope>]]\n#<y> = [#<left> - #<rise> * [#<at> + 30] + 1.985 * SQRT[1 + #<rise> * #<rise>]]\n#<cx> = [[#<x> - #<slope> * #<y>] / [1 - #<slope> * #<rise>]]\nG10 L2 P1 X[#5221 + #<cx>] ;! offset-write-mismatch\nM2\n`,
      shopProfile,
    ],
    [
      'a sloping corner without the origin',
      'rs274ngc',
      `${slopingCorner}#<x> = [#<near> - #<slope> * #<beside> + 1.985 * SQRT[1 + #<slope> * #<slope>]]\n#<y> = [#<left> - #<rise> * [#<at> + 30] + 1.985 * SQRT[1 + #<rise> * #<rise>]]\n#<cx> = [[#<x> + #<slope> * #<y>] / [1 - #<slope> * #<rise>]]\nG10 L2 P1 X[#<at> - #<cx>] ;! offset-write-mismatch\nM2\n`,
      shopProfile,
    ],
    [
      'the old origin by a number that is none',
      'macro',
      'G21 G90 G94\n#1=#4014-53\nG0 Z5.\nG31 Z-20. F40.\nIF[#5063LT-19.9]GOTO9\n#101=#5063\nG0 Z5.\nG10 L2 P#1 Z[#[5203-20*#1]+#101] ;! offset-write-mismatch\nM30\nN9 #3000=1(NO CONTACT)\n',
    ],
    [
      'a P that is none',
      'macro',
      'G21 G90 G94\n#1=#4014+53\nG0 Z5.\nG31 Z-20. F40.\nIF[#5063LT-19.9]GOTO9\n#101=#5063\nG0 Z5.\nG10 L2 P#1 Z[#[5203+20*[#4014-53]]+#101] ;! offset-write-mismatch\nM30\nN9 #3000=1(NO CONTACT)\n',
    ],
    [
      'a P that is none, in the other dialect',
      'rs274ngc',
      'o<top> sub\n  G21 G90 G94\n  G38.2 Z-10 F40\n  #<top> = #5063\n  G0 Z5\n  G10 L2 P[#5220 + 20] Z[#[5203 + 20 * #5220] + #<top>] ;! offset-write-mismatch\no<top> endsub\n',
    ],
    [
      'L2 for L20 at the middle that it moved to',
      'rs274ngc',
      `${bore}G0 X[[#<right> + #<left>] / 2]\nG10 L2 P1 X0 ;! offset-write-mismatch\nM2\n`,
    ],
    [
      'L2 for L20 of the active offset, by a sub',
      'rs274ngc',
      'o<zero> sub\n  G38.2 Z-10 F40\n  G0 Z[#5063 + 2]\n  G10 L2 P0 Z2 ;! offset-write-mismatch\no<zero> endsub\nG21 G90 G94 G54\nG0 Z5\no<zero> call\nM2\n',
    ],
    [
      'L2 where the tip stands behind a touch',
      'macro',
      'G21 G90 G94 G54\nG0 Z5.\nG31 Z-20. F40.\nIF[#5063LT-19.9]GOTO9\nG0 Z[#5063+5.]\nG10 L2 P1 Z5. ;! offset-write-mismatch\nM30\nN9 #3000=1(NO CONTACT)\n',
    ],
  ],
  [
    [
      'G10 L20 of the macro family, which wants an origin',
      'macro',
      'G21 G90 G94 G54\nG0 Z5.\n#101=0\nIF[#1EQ1]GOTO5\nG31 Z-20. F40.\nIF[#5063LT-19.9]GOTO9\n#101=#5063\nN5 G0 Z5.\nG10 L20 P1 Z[#101+#5223]\nM30\nN9 #3000=1(NO CONTACT)\n',
    ],
    [
      'G10 L20 of a distance less the called result',
      'rs274ngc',
      'o<top> sub\n  o1 if [#1 GT 0]\n    G38.2 Z-10 F40\n    #<_top> = #5063\n  o1 else\n    #<_top> = 0\n  o1 endif\n  G0 Z5\no<top> endsub\nG21 G90 G94 G54\nG0 Z5\no<top> call [#<_deep>]\nG10 L20 P1 Z[5 - [#<_top> + 2]]\nM2\n',
    ],
    [
      'a plain number for G10 L2 after a loop whose middle is kept for somebody',
      'rs274ngc',
      'G21 G90 G94 G54\nG0 X0 Y0 Z-5\n#<cx> = 0\n#<n> = 0\no1 while [#<n> LT 2]\n  G38.2 X[#<cx> + 20] F40\n  #<right> = #5061\n  G0 X#<cx>\n  G38.2 X[#<cx> - 20]\n  #<left> = #5061\n  #<cx> = [[#<right> + #<left>] / 2]\n  G0 X#<cx>\n  #<n> = [#<n> + 1]\n  (debug, middle #<cx>)\no1 endwhile\nG10 L2 P1 X0\nM2\n',
    ],
    ['the origin added', 'rs274ngc', `${down}G0 Z5\nG10 L2 P1 Z[#5223 + #5063]\nM2\n`],
    ['G10 L20 away from the face', 'rs274ngc', `${down}G0 Z5\nG10 L20 P1 Z[5 - #5063]\nM2\n`],
    [
      'at the middle that it moved to',
      'rs274ngc',
      `${bore}G0 X[[#<right> + #<left>] / 2]\nG10 L20 P1 X0\nM2\n`,
    ],
    [
      'measured in an offset that is kept at the machine zero',
      'rs274ngc',
      'G21 G90 G94 G59.3\nG0 Z5\nG38.2 Z-10 F40\nG0 Z5\nG10 L2 P1 Z#5063\nM2\n',
    ],
    [
      'zeroed before',
      'rs274ngc',
      'G21 G90 G94 G54\nG10 L2 P1 Z0\nG38.2 Z-10 F40\nG0 Z5\nG10 L2 P1 Z#5063\nM2\n',
    ],
    [
      'corrected twice',
      'rs274ngc',
      `${bore}G10 L2 P1 X[#5221 + [#<right> + #<left>] / 2]\nG0 X0\nG38.2 X20 F40\n#<right> = #5061\nG0 X0\nG38.2 X-20\n#<left> = #5061\nG0 X0\nG10 L2 P1 X[#5221 + [#<right> + #<left>] / 2]\nM2\n`,
    ],
    [
      'another offset, from the zero it was measured in',
      'rs274ngc',
      `${down}G0 Z5\nG10 L2 P2 Z[#5223 + #5063]\nM2\n`,
    ],
    [
      'a machine position',
      'rs274ngc',
      `${down}#<top> = #5063\nG0 Z5\nG10 L2 P1 Z[#<_abs_z> - #<_z> + #<top>]\nM2\n`,
    ],
    [
      'the parameter of the offset',
      'macro',
      'G21 G90 G94 G54\nG0 Z5.\nG31 Z-20. F40.\nIF[#5063LT-19.9]GOTO9\n#101=#5063\nG0 Z5.\n#5223=#5223+#101\nM30\nN9 #3000=1(NO CONTACT)\n',
    ],
    [
      'the origin by index',
      'macro',
      'G21 G90 G94\n#1=#4014-53\nG0 Z5.\nG31 Z-20. F40.\nIF[#5063LT-19.9]GOTO9\n#101=#5063\nG0 Z5.\nG10 L2 P#1 Z[#[5203+20*#1]+#101]\nM30\nN9 #3000=1(NO CONTACT)\n',
    ],
    [
      'a coordinate that is put in by hand',
      'macro',
      'G21 G90 G94 G54\nG0 Z5.\nG31 Z-20. F40.\nIF[#5063LT-19.9]GOTO9\n#101=#5063\nG0 Z5.\n#5223=#500+#101\nM30\nN9 #3000=1(NO CONTACT)\n',
    ],
    [
      'one coordinate of each touch, both used',
      'rs274ngc',
      'G21 G90 G94 G54\nG0 X0 Y0\nG38.2 X20 F40\n#<x> = [#5061 + 2]\nG0 X0\nG38.2 Y20 F40\n#<y> = [#5062 + 2]\nG0 Y0\nG10 L2 P1 X[#5221 + #<x>] Y[#5222 + #<y>]\nM2\n',
    ],
    [
      'a distance added to another origin',
      'rs274ngc',
      'G21 G90 G94 G54\nG0 X0 Y0\nG38.2 X20 F40\n#<right> = #5061\nG0 X0\nG38.2 X-20 F40\n#<left> = #5061\nG0 X0\nG10 L2 P2 X[#5221 + #<right> - #<left> + 4]\nM2\n',
    ],
    [
      'where the tip stands, by G10 L20',
      'rs274ngc',
      'G21 G90 G94 G54\n#<at> = #<_x>\nG38.2 X20 F40\n#<edge> = [#5061 + 2]\nG0 X#<at>\nG10 L20 P1 X[#<at> - #<edge>]\nM2\n',
    ],
    [
      'a sloping corner',
      'rs274ngc',
      `${slopingCorner}#<x> = [#<near> - #<slope> * #<beside> + 1.985 * SQRT[1 + #<slope> * #<slope>]]\n#<y> = [#<left> - #<rise> * [#<at> + 30] + 1.985 * SQRT[1 + #<rise> * #<rise>]]\n#<cx> = [[#<x> + #<slope> * #<y>] / [1 - #<slope> * #<rise>]]\nG10 L2 P1 X[#5221 + #<cx>] Y[#5222 + #<y> + #<rise> * #<cx>]\nM2\n`,
      shopProfile,
    ],
    [
      'a sloping corner, in inches',
      'rs274ngc',
      `${slopingCorner.replace('G21', 'G20').replaceAll('F40', 'F1.6')}#<x> = [#<near> - #<slope> * #<beside> + 0.07815 * SQRT[1 + #<slope> * #<slope>]]\n#<y> = [#<left> - #<rise> * [#<at> + 30] + 0.07815 * SQRT[1 + #<rise> * #<rise>]]\n#<cx> = [[#<x> + #<slope> * #<y>] / [1 - #<slope> * #<rise>]]\nG10 L2 P1 X[#5221 + #<cx>] Y[#5222 + #<y> + #<rise> * #<cx>]\nM2\n`,
      shopProfile,
    ],
    [
      'a sloping corner at places that are plain numbers',
      'macro',
      `${slopingCornerMacro}#107=#101-#105*10.+1.985*SQRT[1.+#105*#105]\n#108=#103-#106*10.+1.985*SQRT[1.+#106*#106]\n#109=[#107+#105*#108]/[1.-#105*#106]\nG10 L2 P1 X[#5221+#109] Y[#5222+#108+#106*#109]\nM30\nN9 #3000=1(NO CONTACT)\n`,
      shopProfile,
    ],
    [
      'where the face meets the zero of Y',
      'rs274ngc',
      `${slopingFace}#<edge> = [#<near> - #<slope> * #<beside> + 1.985 * SQRT[1 + #<slope> * #<slope>]]\nG10 L2 P1 X[#5221 + #<edge>]\nM2\n`,
      shopProfile,
    ],
    [
      'turned about the zero',
      'rs274ngc',
      `${slopingCorner}#<angle> = ATAN[#<slope>]/[1]\n#<x> = [[#<near> + 1.985] * COS[#<angle>] - [#<left> + #<rise> + 1.985] * SIN[#<angle>]]\nG10 L2 P1 X[#5221 + #<x>]\nM2\n`,
      shopProfile,
    ],
    [
      'a number of its own for each offset',
      'macro',
      'G21 G90 G94\n#1=#4014-53\nG0 Z5.\nG31 Z-20. F40.\nIF[#5063LT-19.9]GOTO9\n#101=#5063\nG0 Z5.\nG10 L2 P#1 Z[#[600+#1]+#101]\nM30\nN9 #3000=1(NO CONTACT)\n',
    ],
    [
      'a scratch offset zeroed after the datum was written',
      'rs274ngc',
      'G21 G90 G94 G59.3\nG0 X0 Y0\nG38.2 X20 F40\n#<right> = #5061\nG0 X0\nG38.2 X-20\n#<left> = #5061\nG0 X[[#<right> + #<left>] / 2]\nG10 L20 P1 X0\nG10 L2 P9 X0\nM2\n',
    ],
    [
      'another offset set to a number there',
      'rs274ngc',
      `${bore}G0 X[[#<right> + #<left>] / 2]\nG10 L2 P3 X0\nM2\n`,
    ],
    [
      'zeroed before anything is touched',
      'macro',
      'G21 G90 G94 G54\nG10 L2 P1 Z0\nG0 Z5.\nG31 Z-20. F40.\nIF[#5063LT-19.9]GOTO9\n#500=#5063\nG0 Z5.\nM30\nN9 #3000=1(NO CONTACT)\n',
    ],
  ],
);
