import { version } from '../package.json';
import { startAsAsked } from './runtime/startServer.ts';

void startAsAsked(version);
