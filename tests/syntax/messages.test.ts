import { describe, expect, it } from 'vitest';
import { dialects } from '../../server/syntax/dialects.ts';
import { readMessage } from '../../server/syntax/messages.ts';
import { parseBlock } from '../../server/syntax/parseBlock.ts';
import { outlineExpression } from './outline.ts';

function message(line: string, dialect = dialects.rs274ngc) {
  const block = parseBlock(line, dialect);
  const comment = block.items.find((item) => item.kind === 'comment');
  const found = comment ? readMessage(block, comment, dialect) : null;
  return found && [found.command, found.text, ...found.parameters.map(outlineExpression)];
}

describe('comments that do something', () => {
  it.each([
    // NISTIR 6556, 3.3.4
    ['(MSG, change the tool to #5)', ['message', ' change the tool to #5']],
    // The others: common practice, no source.
    ['G1 X1 (print, x #5061 y #<_y>)', ['print', ' x #5061 y #<_y>', '#5061', '#<_y>']],
    ['( debug , ##1)', ['debug', ' ##1', '#[#1]']],
    ['(abort, no contact)', ['abort', ' no contact']],
    ['(log,#1,# ,#2)', ['log', '#1,# ,#2', '#1', '#2']],
    ['(logopen,probe.txt)', ['log-open', 'probe.txt']],
    ['(PROBEOPEN points.txt)', ['probe-open', 'points.txt']],
    ['(LOGCLOSE)', ['log-close', '']],
  ])('%s', (line, expected) => {
    expect(message(line)).toEqual(expected);
  });

  it.each(['(print #1)', '(printed, #1)', '(message)', '()', '; print, #1', '(#1)'])(
    '%s only comments',
    (line) => {
      expect(message(line)).toBeNull();
    },
  );

  it('belong to rs274ngc', () => {
    expect(message('(print, #1)', dialects.macro)).toBeNull();
  });

  it('give places in the line', () => {
    const block = parseBlock('M0 (print, #5)', dialects.rs274ngc);
    const [, comment] = block.items;
    const found = comment?.kind === 'comment' ? readMessage(block, comment, dialects.rs274ngc) : null;
    expect(found?.parameters).toMatchObject([{ start: 11, end: 13 }]);
  });
});
