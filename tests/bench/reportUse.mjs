// Preloaded with --import: writes what the process took of processor (s) and memory (KiB, at its peak) to the file that
// PROCESS_USE_FILE names.
import { writeFileSync } from 'node:fs';

process.on('exit', () => {
  const { user, system } = process.cpuUsage();
  const use = { processor: (user + system) / 1e6, peak: process.resourceUsage().maxRSS };
  writeFileSync(process.env.PROCESS_USE_FILE, JSON.stringify(use));
});
