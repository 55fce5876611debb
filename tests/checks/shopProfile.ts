/** A calibrated probe whose effective diameter differs from the actual one by more than the calibration's uncertainty. */
export const shopProfile = JSON.stringify({
  probe: {
    tipDiameter: 4,
    calibration: { effectiveDiameter: 3.97, expandedUncertainty: 0.002, feed: 40 },
  },
});

/** The touch of an edge towards +X in rs274ngc; the latched coordinate stands in #5061. */
export const edgeTouched = 'G21 G90 G94 G54\nG0 X0 Y0\nG38.2 X20 F40\n';
