import { expect, test } from 'vitest';
import { capabilities } from '../../server/editor/capabilities.ts';
import { clientFacts } from '../../server/editor/clientFacts.ts';

test.each([undefined, null, 7, 'x', [], { commands: 7, ruleLink: {}, offersFiles: 'yes', pictures: 1 }])(
  'options that are not ours (%j) count as none',
  (initializationOptions) => {
    const facts = clientFacts({ capabilities: {}, initializationOptions });
    expect(facts).toMatchObject({
      offersFiles: false,
      pictures: false,
      ruleLink: null,
      rulePages: 'nowhere',
    });
    expect(facts.commands.size).toBe(0);
  },
);

test('a client that declares nothing gets pushes, and no feature that it could not show', () => {
  const facts = clientFacts({ capabilities: {} });
  expect(facts).toMatchObject({ pullsFindings: false, takesPushes: true, markdown: false });
  const offered = capabilities(facts);
  expect(offered).not.toHaveProperty('diagnosticProvider');
  expect(offered).not.toHaveProperty('codeActionProvider');
});

test('a client that takes documents from servers gets rule pages as documents', () => {
  const facts = clientFacts({ capabilities: { workspace: { textDocumentContent: {} } } });
  expect(facts.ruleLink).toBe('probewright-rule:/{rule}.md');
  expect(capabilities(facts).workspace).toMatchObject({
    textDocumentContent: { schemes: ['probewright-rule'] },
  });
});

test('a command of the client’s is not offered a second time', () => {
  const own = { commands: ['probewright.explainRule'] };
  const offered = (initializationOptions: object) =>
    capabilities(clientFacts({ capabilities: {}, initializationOptions })).executeCommandProvider;
  expect(offered(own)).toBeUndefined();
  expect(offered({})).toEqual({ commands: ['probewright.explainRule'] });
});
