/** Characters at which a client asks for more while a program is written. */
export const completionTriggers = ['#', '<', ':', ' ', '('];
export const signatureTriggers = ['[', ' ', ','];
export const signatureRetriggers = [']', '/'];
/** Behind these a line may have become the end of a branch, a loop or a routine. */
export const formatTriggers = {
  firstTriggerCharacter: '\n',
  moreTriggerCharacter: ['f', 'F', 'b', 'B', 'e', 'E', 't', 'T', '1', '2', '3'],
};
