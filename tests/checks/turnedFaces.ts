/** A face across X touched at two places, both counted from where the tip stands; its slope against Y. */
export const slopingFace = `G21 G90 G94 G54
#<at> = #<_x>
#<beside> = #<_y>
G38.2 X[#<at> + 20] F40
#<near> = #5061
G0 X#<at>
G0 Y[#<beside> + 20]
G38.2 X[#<at> + 20] F40
#<far> = #5061
G0 X#<at>
#<slope> = [[#<far> - #<near>] / 20]
`;

/** Then one across Y, and that one's slope against X. */
export const slopingCorner = `${slopingFace}G0 X[#<at> + 30]
G0 Y[#<beside> - 20]
G38.2 Y[#<beside> + 10] F40
#<left> = #5062
G0 Y[#<beside> - 20]
G0 X[#<at> + 50]
G38.2 Y[#<beside> + 10] F40
#<right> = #5062
G0 Y[#<beside> - 20]
#<rise> = [[#<right> - #<left>] / 20]
`;

/** Both in the macro family, tested, with the places as plain numbers. */
export const slopingCornerMacro = `G21 G90 G94 G54
G0 X-10. Y10.
G31 X10. F40.
IF[#5061GT9.9]GOTO9
#101=#5061
G0 X-10.
G0 Y30.
G31 X10. F40.
IF[#5061GT9.9]GOTO9
#102=#5061
G0 X-10.
G0 Y-10.
G0 X10.
G31 Y10. F40.
IF[#5062GT9.9]GOTO9
#103=#5062
G0 Y-10.
G0 X30.
G31 Y10. F40.
IF[#5062GT9.9]GOTO9
#104=#5062
G0 Y-10.
#105=[#102-#101]/20.
#106=[#104-#103]/20.
`;
