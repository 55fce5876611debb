/** Kinds of the protocol, without the library that has names for them. */
export const quickFixKind = 'quickfix';

/** Every fix that moves no axis, at once. */
export const fixAllKind = 'source.fixAll.probewright';
