/** Clients encode the same address differently (`c%3A`, `C:`): two are one file where this is the same. */
export function comparable(uri: string): string {
  return decoded(uri).replace(
    /^file:\/\/\/([a-z]):/i,
    (_, drive: string) => `file:///${drive.toLowerCase()}:`,
  );
}

/** The address of a file of that name beside another; null where that one is in no folder (an unsaved document). */
export function beside(uri: string, name: string): string | null {
  const slash = uri.lastIndexOf('/');
  return slash < 0 ? null : uri.slice(0, slash + 1) + encodeURIComponent(name);
}

/** The address of a file that is named from the folder of another, `../history/past.jsonl`, or from the root; null: no such. */
export function fromFolderOf(uri: string, path: string): string | null {
  const parts = /^([a-z][a-z0-9+.-]*:\/\/[^/]*)(\/[^?#]*)/i.exec(uri);
  if (parts === null) return null;
  const [, root = '', own = ''] = parts;
  const slashed = path.replaceAll('\\', '/');
  const from = /^([a-z]:)?\//i.test(slashed) ? [] : own.split('/').slice(1, -1);
  const walked: string[] = [];
  for (const step of [...from, ...slashed.split('/').map(encodeURIComponent)]) {
    if (step === '..') walked.pop();
    else if (step !== '' && step !== '.') walked.push(step);
  }
  return `${root}/${walked.join('/')}`;
}

function decoded(uri: string): string {
  try {
    return decodeURIComponent(uri);
  } catch {
    return uri;
  }
}
