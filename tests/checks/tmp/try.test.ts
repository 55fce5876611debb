import { builtInProfile } from '/work/main/server/profile/profile.ts';
import { routineNamed, writeRoutine } from '/work/main/server/routines/registry.ts';

const [, , name, dialect, form, units] = process.argv;
const r = writeRoutine(
  routineNamed(name!)!,
  {},
  {
    profile: builtInProfile,
    dialect: dialect as 'macro',
    form: form as 'inline',
    units: units as 'mm',
    standAlone: true,
  },
);
console.log('text' in r ? r.text : r);
