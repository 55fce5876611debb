/** What the command `calibrate` computes and where that comes from, Markdown. */
export const calibrationPage = `# Calibrating a touch probe

A touch latches the stylus centre m; the surface lies at m + r along the approach n, r the effective radius: actual
radius less pre-travel less what the axis moves from trip to latch. Directions of approach: X+ = 0°, counter-clockwise
seen from +Z. Lengths that are compensated with a wrong radius are wrong by as much.

## Ring and plug

    (x − c_x)·cos θ + (y − c_y)·sin θ = ±D_ref/2 − r(θ)          + ring, − plug
    r(θ) = r0 + Σ a_h·cos h(θ−φ) + b_h·sin h(θ−φ) − (v − v₁)·τ ,   effective diameter = 2·r0

θ starts as the commanded direction and is taken again from the centre found, until it settles: that is the circle of
least distances. φ is the spindle angle, τ the latency, v₁ the feed of the first touch. Lobes of an order are solved for
where the touches tell both phases apart (condition number of the scaled columns at most 20); with several spindle
angles run-out is order 1. Where an order cannot be told apart, what it does to radius and centre is computed from the
same columns, and said.

    u² = (2s)²·[(XᵀX)⁻¹]_r0 + (U_ref/2)² ,   U = t₀.₉₇₅(ν)·u ,   ν by Welch–Satterthwaite

s is the standard deviation of the residuals, the repeatability that of touches repeated at one place. Source: least
squares and its covariance as in JCGM 100:2008 H.3; effective degrees of freedom G.4; lobes against the number of
touches: the sampling theorem. Outliers: externally studentised residuals with Bonferroni's limit (Cook & Weisberg 1982,
from memory), one after the other as in Rosner's generalised ESD (NIST/SEMATECH e-Handbook 1.3.5.17.3, from memory).

## Gap and block

    r(θ) + r(θ+180°) = ±W − (m₁·n₁ + m₂·n₂)                       + gap, − block
    u² = s²·(1/N₁ + 1/N₂) + (U_ref/2)²

One axis; odd lobes cancel. The difference of the two equations of a touch; faces square to the axis.

## Sphere

    (m − c)·n = −D_ref/2 − r(n)
    r(n) = r_lat·cos²ε + r_ax·sin²ε + cos ε·(a₃·cos 3α + b₃·sin 3α)

α azimuth and ε elevation of the approach, −90° straight down; columns azimuth, elevation, x, y, z. z may be that of the
ball's centre or of its lowest point: it moves c alone. The squares are the one quadratic form that is r_lat in every
lateral direction and r_ax along the axis, and lobes fade with cos ε: our own way between the two ends, exact at the
ends; the trip force of three supports for a push in any direction is in Estler et al., Precision Engineering 19(2)
(1996) 85-97. Form is the range of the distances from one sphere of least squares, and the 25 touches of --design 25 are
those that ISO 10360-5 recommends (2010, 6.2.3, from memory). The tool length is set by a touch along Z and holds the
axial pre-travel: programs need r_ax for nothing else.

## Verification

    ±D_ref/2 − m·n − r_cal(θ−φ, v) = δ − c·n

Few touches against the calibration of the profile: the drift 2δ by Student's t with U of the calibration, of the
reference (cautious where it is the same one again) and of these touches in it; what is left by F against the spread of a touch. Two opposite touches see even
lobes in their diameter and odd ones in their middle; the middle shows them only when the spindle is turned: at 90° by
√2 times their amplitude at most, at 180° by twice.

## History

One JSON object a line: date, effectiveDiameter, expandedUncertainty, coverageFactor, tipDiameter (mm), feed (mm/min),
touches. The trend is the straight line of least squares over the days since the tip was last changed (NIST/SEMATECH
e-Handbook 4.4.3.1), its slope tested by Student's t, 5 %.

## Before you touch

Clean ball and reference; reference and machine at one temperature; the feed that programs will measure with; the same
spindle angle as programs use, or several. Prove the moves above the reference first, single block, reduced rapids, a
hand on the stop. The machine builder's manual, local rules and trained people have the last word.
`;
