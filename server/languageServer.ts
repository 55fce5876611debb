import { version } from '../package.json';
import { startAsAsked } from './runtime/nodeLanguageServer.ts';

startAsAsked(version);
