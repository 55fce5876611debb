; SYNTAX TEST "source.gcode" "flow of the macro dialect"

O0020(BORE)
; <- storage.type.program.gcode
;^^^^ entity.name.function.gcode
;    ^^^^^^ comment.block.gcode

IF[ABS[#5063-#1]LT0.05]GOTO90
; <-- keyword.control.conditional.gcode
;  ^^^ support.function.math.gcode
;       ^^^^ variable.language.touch-result.gcode
;               ^^ keyword.operator.comparison.gcode
;                 ^^^^ constant.numeric.decimal.gcode
;                      ^^^^ keyword.control.goto.gcode
;                          ^^ entity.name.label.gcode

IF [#1 EQ #0] THEN #1=2
;             ^^^^ keyword.control.conditional.gcode
;                  ^ punctuation.definition.variable.gcode
;                    ^ keyword.operator.assignment.gcode

WHILE [#2 LE 4] DO1
; <----- keyword.control.loop.gcode
;               ^^ keyword.control.loop.gcode
;                 ^ entity.name.label.gcode

END1(next)
; <--- keyword.control.loop.gcode
;  ^ entity.name.label.gcode
;   ^^^^^^ comment.block.gcode

GOTO#5
; <---- keyword.control.goto.gcode
;   ^ punctuation.definition.variable.gcode

N90 #3000=121(NO CONTACT)
;^^ entity.name.label.gcode
;    ^^^^ variable.other.numbered.gcode
;         ^^^ constant.numeric.decimal.gcode
;            ^^^^^^^^^^^^ comment.block.gcode

M99
; <--- keyword.control.call.gcode

#1=#2AND#3
;    ^^^ keyword.operator.logical.gcode
