/** Pages of rules as documents that the server writes, for clients that ask it for documents. */
export const ruleScheme = 'probewright-rule';

export const ruleDocumentLink = `${ruleScheme}:/{rule}.md`;
