// Preloaded with --import: writes the process's peak memory in KiB to the file that PEAK_MEMORY_FILE names.
import { writeFileSync } from 'node:fs';

process.on('exit', () => writeFileSync(process.env.PEAK_MEMORY_FILE, String(process.resourceUsage().maxRSS)));
