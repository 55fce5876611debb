import { compensationDoubled } from './compensationDoubled.ts';
import { compensationMissing } from './compensationMissing.ts';
import { compensationReversed } from './compensationReversed.ts';
import { datumFromStopPosition } from './datumFromStopPosition.ts';
import { duplicateLabel } from './duplicateLabel.ts';
import { effectiveDiameterOutdated } from './effectiveDiameterOutdated.ts';
import { exactPositionTest } from './exactPositionTest.ts';
import { failureBranchContinues } from './failureBranchContinues.ts';
import { failureExitWithoutRetract } from './failureExitWithoutRetract.ts';
import { guardedMoveUntested } from './guardedMoveUntested.ts';
import { ignoredArguments } from './ignoredArguments.ts';
import { machineCoordinatesWithoutMotion } from './machineCoordinatesWithoutMotion.ts';
import { measuringFeedMismatch } from './measuringFeedMismatch.ts';
import { missingWord } from './missingWord.ts';
import { modalConflict } from './modalConflict.ts';
import { modeAssumed } from './modeAssumed.ts';
import { modeNotRestored } from './modeNotRestored.ts';
import { nominalDiameterUsed } from './nominalDiameterUsed.ts';
import { noRetractAfterTrip } from './noRetractAfterTrip.ts';
import { offsetWriteMismatch } from './offsetWriteMismatch.ts';
import { oneSidedTest } from './oneSidedTest.ts';
import { outsideDialects } from './outsideDialects.ts';
import { overtravelExceeded } from './overtravelExceeded.ts';
import { pageOf } from './page.ts';
import { probeFailureUnhandled } from './probeFailureUnhandled.ts';
import { probeFeedUnset } from './probeFeedUnset.ts';
import { probeInInverseTime } from './probeInInverseTime.ts';
import { probeMovesRotary } from './probeMovesRotary.ts';
import { probeNotSelected } from './probeNotSelected.ts';
import { probeResultStale } from './probeResultStale.ts';
import { probeResultUnset } from './probeResultUnset.ts';
import { probeTravelTooShort } from './probeTravelTooShort.ts';
import { probeWithCoolant } from './probeWithCoolant.ts';
import { probeWithCutterCompensation } from './probeWithCutterCompensation.ts';
import { probeWithSpindleRunning } from './probeWithSpindleRunning.ts';
import { radiusInConstant } from './radiusInConstant.ts';
import { repeatedWord } from './repeatedWord.ts';
import { retractTooShort } from './retractTooShort.ts';
import type { Rule } from './rule.ts';
import { searchTooShort } from './searchTooShort.ts';
import { searchUnbounded } from './searchUnbounded.ts';
import { shiftLeftActive } from './shiftLeftActive.ts';
import { singleFastTouch } from './singleFastTouch.ts';
import { suppressionWithoutReason } from './suppressionWithoutReason.ts';
import { syntax } from './syntax.ts';
import { testBeforeTouch } from './testBeforeTouch.ts';
import { toolLengthOffsetMissing } from './toolLengthOffsetMissing.ts';
import { unboundedRetry } from './unboundedRetry.ts';
import { undefinedSubroutine } from './undefinedSubroutine.ts';
import { unguardedApproach } from './unguardedApproach.ts';
import { unitsMismatch } from './unitsMismatch.ts';
import { unknownCode } from './unknownCode.ts';
import { unmatchedFlow } from './unmatchedFlow.ts';
import { unreachableBlock } from './unreachableBlock.ts';
import { unsetParameter } from './unsetParameter.ts';
import { unusedParameter } from './unusedParameter.ts';
import { unusedSuppression } from './unusedSuppression.ts';

/** Every rule, in the order of the catalogue. */
export const rules: readonly Rule[] = [
  noRetractAfterTrip,
  retractTooShort,
  overtravelExceeded,
  probeFeedUnset,
  measuringFeedMismatch,
  singleFastTouch,
  probeTravelTooShort,
  searchTooShort,
  searchUnbounded,
  probeInInverseTime,
  probeMovesRotary,
  probeWithCutterCompensation,
  probeWithSpindleRunning,
  probeWithCoolant,
  probeNotSelected,
  toolLengthOffsetMissing,
  unguardedApproach,
  probeFailureUnhandled,
  guardedMoveUntested,
  failureBranchContinues,
  testBeforeTouch,
  failureExitWithoutRetract,
  oneSidedTest,
  exactPositionTest,
  probeResultUnset,
  probeResultStale,
  unboundedRetry,
  compensationMissing,
  compensationReversed,
  compensationDoubled,
  nominalDiameterUsed,
  effectiveDiameterOutdated,
  unitsMismatch,
  datumFromStopPosition,
  radiusInConstant,
  offsetWriteMismatch,
  shiftLeftActive,
  modeAssumed,
  modeNotRestored,
  syntax,
  unknownCode,
  modalConflict,
  repeatedWord,
  missingWord,
  unsetParameter,
  unmatchedFlow,
  duplicateLabel,
  ignoredArguments,
  machineCoordinatesWithoutMotion,
  undefinedSubroutine,
  outsideDialects,
  unreachableBlock,
  unusedParameter,
  suppressionWithoutReason,
  unusedSuppression,
];

export const ruleIds: readonly string[] = rules.map(({ id }) => id);

/** The page of a rule as Markdown; null where there is no such rule. */
export function explain(ruleId: string): string | null {
  const rule = rules.find(({ id }) => id === ruleId);
  return rule ? pageOf(rule) : null;
}
