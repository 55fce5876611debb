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

function decoded(uri: string): string {
  try {
    return decodeURIComponent(uri);
  } catch {
    return uri;
  }
}
