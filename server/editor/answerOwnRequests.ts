import type { Connection } from 'vscode-languageserver';
import { explain, rules } from '../checks/registry.ts';
import * as calibration from '../protocol/calibration.ts';
import * as protocol from '../protocol/requests.ts';
import { verificationTable } from '../report/verificationTable.ts';
import { allowHereEdit } from './allowHere.ts';
import { routineUpdate } from './blockUpdate.ts';
import { calibrateFromText } from './calibrateFromText.ts';
import { calibrationPlan } from './calibrationPlan.ts';
import { effectiveProfilePage } from './effectiveProfilePage.ts';
import { guarded } from './guard.ts';
import { namedHistory } from './namedHistory.ts';
import { probePage } from './probePage.ts';
import { profileTemplate } from './profileTemplate.ts';
import { proposeSetupFor } from './proposeSetupFor.ts';
import { rehearseProgram } from './rehearseProgram.ts';
import { emptyPlace, type RoutinePlace, routinePlace } from './routinePlace.ts';
import { describeRoutines, generateRoutine } from './routineRequests.ts';
import { routinesPage } from './routinesPage.ts';
import type { Session } from './session.ts';
import { verifyFromText } from './verifyFromText.ts';

/** What our own client asks beyond the Language Server Protocol. */
export function answerOwnRequests(connection: Connection, session: Session): void {
  const { log } = session;
  const answer = <P, R>(method: string, handle: (params: P) => Promise<R> | R) =>
    connection.onRequest(method, guarded<P, R>(method, log, handle));

  answer(protocol.listRules, (): protocol.ListRulesResult => rules.map(({ id, title }) => ({ id, title })));
  answer(protocol.explainRule, ({ rule }: protocol.ExplainRuleParams): protocol.Page | null => {
    const markdown = explain(rule);
    return markdown === null ? null : { title: rule, markdown };
  });
  answer(protocol.effectiveProfile, async ({ uri }: protocol.EffectiveProfileParams) =>
    effectiveProfilePage(await session.profiles.of(uri)),
  );
  answer(protocol.routinesPage, async ({ uri }: protocol.RoutinesPageParams) =>
    routinesPage(await session.profiles.of(uri)),
  );
  answer(protocol.profileTemplate, (): protocol.ProfileTemplateResult => ({ text: profileTemplate() }));
  answer(protocol.allowHere, async (params: protocol.AllowHereParams): Promise<protocol.AllowHereResult> => {
    const program = await session.program(params.uri);
    if (!program) return { edits: [] };
    return { edits: [allowHereEdit(program.source, params.line, params.rule, params.reason)] };
  });
  connection.onRequest(
    protocol.rehearse,
    guarded(protocol.rehearse, log, (params: protocol.RehearseParams, token) =>
      rehearseProgram(params, session, token),
    ),
  );
  answer(protocol.proposeSetup, ({ uri }: protocol.ProposeSetupParams) => proposeSetupFor(uri, session));
  answer(calibration.calibrate, (params: calibration.CalibrateParams) => calibrateFromText(params, session));
  answer(calibration.planCalibration, async (params: calibration.PlanCalibrationParams) => {
    const { profile } = await session.profiles.of(params.uri);
    return calibrationPlan(params, profile);
  });
  answer(calibration.verifyCalibration, async (params: calibration.VerifyCalibrationParams) =>
    verifyFromText(params, await session.profiles.of(params.uri)),
  );
  answer(
    protocol.showErrors,
    async (params: protocol.ShowErrorsParams): Promise<protocol.ShowErrorsResult> => {
      const { errorsPage } = await import('./errorsPage.ts');
      return errorsPage(await session.program(params.uri), params);
    },
  );
  answer(protocol.routineUpdate, async ({ uri, line }: protocol.RoutineUpdateParams) => {
    const program = await session.program(uri);
    return program ? routineUpdate(program, line) : null;
  });
  answer(
    calibration.planVerification,
    async ({ uri }: calibration.PlanVerificationParams): Promise<calibration.PlanVerificationResult> => {
      const { profile } = await session.profiles.of(uri);
      return { table: verificationTable(profile, profile.units) };
    },
  );
  answer(calibration.showProbe, async ({ uri, day }: calibration.ShowProbeParams) => {
    const found = await session.profiles.of(uri);
    return probePage(found, day, await namedHistory(found, session));
  });
  answer(protocol.describeRoutines, async (place: protocol.DocumentPosition) =>
    describeRoutines(await placeOf(place, session)),
  );
  answer(protocol.generateRoutine, async (params: protocol.GenerateRoutineParams) =>
    generateRoutine(await placeOf(params, session), params),
  );
}

/** Where a routine is asked for; a document that is no program yet has a place of its own. */
async function placeOf(
  { uri, position }: protocol.DocumentPosition,
  session: Session,
): Promise<RoutinePlace> {
  const program = await session.program(uri);
  return program ? routinePlace(program, position.line) : emptyPlace(await session.profiles.of(uri));
}
