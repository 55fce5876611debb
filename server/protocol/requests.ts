/**
 * Names and types of what client and server ask each other beyond the Language Server Protocol. Positions are LSP's:
 * 0-based lines and UTF-16 characters. Nothing is imported here, so that both sides can.
 */

/** Asked by the client. */
export const describeRoutines = 'probewright/describeRoutines';
export const generateRoutine = 'probewright/generateRoutine';
export const explainRule = 'probewright/explainRule';
export const listRules = 'probewright/listRules';
export const effectiveProfile = 'probewright/effectiveProfile';
export const profileTemplate = 'probewright/profileTemplate';
export const allowHere = 'probewright/allowHere';
export const routinesPage = 'probewright/routinesPage';
export const rehearse = 'probewright/rehearse';
export const routineUpdate = 'probewright/routineUpdate';
export const showErrors = 'probewright/showErrors';

/** Asked by the server, of a client that offers files. */
export const readFile = 'probewright/readFile';
export const findUpwards = 'probewright/findUpwards';

/** Commands of the client that a code action or a lens may name; offered in `InitializationOptions.commands`. */
export const explainRuleCommand = 'probewright.explainRule';
export const allowHereCommand = 'probewright.allowHere';
export const writeRoutineCommand = 'probewright.writeRoutine';
export const bringUpToDateCommand = 'probewright.bringUpToDate';

/** Everything is optional: another editor sends none of it. */
export interface InitializationOptions {
  /** The client answers `readFile` and `findUpwards`; else the server reads files itself. */
  readonly offersFiles?: boolean;
  /** Which of the commands above the client has. */
  readonly commands?: readonly string[];
  /** The link of a finding's code; `{rule}` stands for the rule's id. Absent: findings have no link. */
  readonly ruleLink?: string;
  /** It draws `data:` pictures in the Markdown of hovers. */
  readonly pictures?: boolean;
  /** How much is written between the words of a program, for a client without settings: "off", "minimal", "all". */
  readonly notes?: string;
}

/** Arguments of `explainRuleCommand`: [rule]; of `allowHereCommand`: [uri, line, rule]; of `bringUpToDateCommand`: [uri, line]. */
export type ExplainRuleArguments = readonly [rule: string];
export type BringUpToDateArguments = readonly [uri: string, line: number];
export type AllowHereArguments = readonly [uri: string, line: number, rule: string];

export type DialectName = 'rs274ngc' | 'macro';
export type Units = 'mm' | 'inch';
export type RoutineForm = 'inline' | 'subroutine';
export type InputValue = string | number | boolean;

export interface DocumentPosition {
  readonly uri: string;
  readonly position: { readonly line: number; readonly character: number };
}

export interface RoutineInput {
  readonly name: string;
  readonly title: string;
  readonly help: string;
  readonly type: 'length' | 'angle' | 'count' | 'feed' | 'choice' | 'flag' | 'text';
  /** As a person reads it, behind the number: "mm", "in", "mm/min", "°"; null where there is none. */
  readonly unit: string | null;
  readonly default: InputValue | null;
  readonly least: number | null;
  readonly greatest: number | null;
  readonly choices: readonly { readonly value: string; readonly title: string }[] | null;
  /** Asked for one by one; the others are offered for change with their default. */
  readonly required: boolean;
}

export interface RoutineDescription {
  readonly name: string;
  readonly title: string;
  readonly summary: string;
  readonly forms: readonly RoutineForm[];
  readonly inputs: readonly RoutineInput[];
}

/** What can be written at this place, in its dialect and units; lengths and feeds of the inputs are in `units`. */
export interface DescribeRoutinesResult {
  readonly dialect: DialectName;
  readonly units: Units;
  /** Path of the profile that the defaults come from; null: the built-in values. */
  readonly profile: string | null;
  readonly routines: readonly RoutineDescription[];
}

export interface GenerateRoutineParams extends DocumentPosition {
  readonly routine: string;
  readonly form: RoutineForm;
  /** Absent names take their default. */
  readonly values: Readonly<Record<string, InputValue>>;
}

export interface GenerateRoutineResult {
  /** null where there are problems. Lines end with `\n`. */
  readonly text: string | null;
  readonly problems: readonly { readonly inputs: readonly string[]; readonly message: string }[];
  /** One a result: what it is, and the error to expect of it, in words ("±3.1 µm, bias 1.2 µm"). */
  readonly expectedErrors: readonly { readonly title: string; readonly text: string }[];
  /** What would make the worst of them better, the largest gain first, in words. */
  readonly betterWays: readonly { readonly title: string; readonly text: string }[];
}

export interface RoutineUpdateParams {
  readonly uri: string;
  readonly line: number;
}

/** A written routine that the profile would give otherwise now; the answer is null where there is none at the line. */
export interface RoutineUpdate {
  readonly title: string;
  /** Somebody changed it by hand: the edit would lose that. */
  readonly isEdited: boolean;
  /** Of the document that the edit is for. */
  readonly version: number;
  readonly edit: ProgramEdit;
}

/** A page to read, in Markdown. */
export interface Page {
  readonly title: string;
  readonly markdown: string;
}

/** Every rule, in the order of the catalogue. */
export type ListRulesResult = readonly { readonly id: string; readonly title: string }[];

/** Answered with a `Page`, or null where there is no such rule. */
export interface ExplainRuleParams {
  readonly rule: string;
}

/** Answered with a `Page`: each value that holds for the document, and where it comes from. */
export interface EffectiveProfileParams {
  readonly uri: string;
}

/** Answered with a `Page`: every routine, for the profile that is nearest to the document. */
export interface RoutinesPageParams {
  readonly uri: string;
}

/** A commented `probewright.json` made of the built-in values. */
export interface ProfileTemplateResult {
  readonly text: string;
}

export interface AllowHereParams {
  readonly uri: string;
  readonly line: number;
  readonly rule: string;
  readonly reason: string;
}

export interface AllowHereResult {
  readonly edits: readonly ProgramEdit[];
}

export interface ProgramEdit {
  readonly range: {
    readonly start: DocumentPosition['position'];
    readonly end: DocumentPosition['position'];
  };
  readonly newText: string;
}

/** Progress goes to `workDoneToken`; the request can be given up. */
export interface RehearseParams {
  /** Of an open program. */
  readonly uri: string;
  /** Where the setup is, open or not, or its text. */
  readonly setup: { readonly uri: string } | { readonly text: string };
  readonly workDoneToken?: string | number;
}

export type RehearseResult =
  | { readonly kind: 'refused'; readonly problems: readonly RehearsalProblem[] }
  | RehearsalView;

/** Why nothing was rehearsed. */
export interface RehearsalProblem {
  readonly message: string;
  /** The file that is to be mended, and where; null: no file, or no one place in it. */
  readonly uri: string | null;
  readonly position: DocumentPosition['position'] | null;
}

/** What the touches of an open program are worth; `tolerance` as typed, half of its width, null: none is to be decided. */
export interface ShowErrorsParams {
  readonly uri: string;
  readonly tolerance: string | null;
}

export type ShowErrorsResult =
  | { readonly kind: 'shown'; readonly page: Page }
  /** In words: no program is there, or the tolerance is none. */
  | { readonly kind: 'refused'; readonly message: string };

export const proposeSetup = 'probewright/proposeSetup';

export interface ProposeSetupParams {
  readonly uri: string;
}

/** The text of a setup file, or in words why there is none. */
export type ProposeSetupResult =
  | { readonly kind: 'proposed'; readonly text: string }
  | { readonly kind: 'none'; readonly message: string };

/** A rehearsal, worded for people. */
export interface RehearsalView {
  readonly kind: 'rehearsed';
  readonly verdict: 'pass' | 'fail';
  readonly undisturbed: RehearsedRunView & {
    readonly touches: readonly TouchView[];
    /** Why it says nothing about what the program measures; '' where it does. */
    readonly untried: string;
    readonly datums: readonly { readonly key: string; readonly error: string }[];
    readonly seconds: number;
  };
  /** A row a fault, a column an outcome, worst first: how many of the fault's forms and touches ended so. */
  readonly matrix: {
    readonly outcomes: readonly OutcomeView[];
    readonly rows: readonly { readonly fault: string; readonly counts: readonly number[] }[];
  };
  /** The runs with a fault, worst first. */
  readonly runs: readonly (RehearsedRunView & { readonly title: string })[];
  /** What was left out or taken for granted, and what every rehearsal leaves to people. */
  readonly cautions: readonly string[];
  /** Other files that it rests on, by their URI: those that the program calls, and the profile. */
  readonly restsOn: readonly string[];
}

export interface OutcomeView {
  readonly name: string;
  /** For a program that people stand beside. */
  readonly grade: 'bad' | 'stopped' | 'right';
  readonly meaning: string;
}

export interface PlaceView {
  /** 0-based. */
  readonly line: number;
  /** URI of the called file that it stands in; null: the program itself. */
  readonly file: string | null;
}

export interface RehearsedRunView extends PlaceView {
  readonly outcome: OutcomeView;
  readonly story: string;
}

export interface TouchView extends PlaceView {
  readonly code: string;
  readonly direction: string;
  /** How far on after the trip, or how it came to none. */
  readonly overtravel: string;
}

export interface ReadFileParams {
  readonly uri: string;
}

/** null: no such file, or not readable. */
export type ReadFileResult = { readonly text: string } | null;

/** The nearest file of that name in the folder of `uri` or above it, not above its workspace folder. */
export interface FindUpwardsParams {
  readonly uri: string;
  readonly name: string;
}

export type FindUpwardsResult = { readonly uri: string; readonly text: string } | null;
