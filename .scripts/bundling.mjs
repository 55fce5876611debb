// How packages get into the bundles of build.mjs: what they do when they are loaded would be waited for at every start.

/** Packages that are loaded when one of them is first used. */
export const packagesAsNeeded = {
  name: 'packages-as-needed',
  setup(build) {
    quantilesAsNeeded(build);
    processesAsNeeded(build);
    withoutLogger(build);
  },
};

/** Each quantile is a function that hundreds of small modules stand behind. */
function quantilesAsNeeded({ onResolve, onLoad, resolve }) {
  const namespace = 'quantile-as-needed';
  onResolve({ filter: /^@stdlib\/stats-base-dists-/ }, ({ path, kind, namespace: from }) =>
    from === 'file' && kind === 'import-statement' ? { path, namespace } : undefined,
  );
  onLoad({ filter: /.*/, namespace }, async ({ path }) => {
    const found = await resolve(path, { kind: 'require-call', resolveDir: import.meta.dirname });
    const contents = `let made; export default (...given) => (made ??= require(${JSON.stringify(found.path)}))(...given);`;
    return { contents, resolveDir: import.meta.dirname };
  });
}

/** The reader of command lines can start other programs; ours never does. */
function processesAsNeeded({ onResolve, onLoad }) {
  const namespace = 'processes-as-needed';
  onResolve({ filter: /^node:child_process$/ }, ({ importer }) =>
    /[\\/]commander[\\/]/.test(importer) ? { path: 'node:child_process', namespace } : undefined,
  );
  onLoad({ filter: /.*/, namespace }, () => ({
    contents: "exports.spawn = (...given) => require('node:child_process').spawn(...given);",
  }));
}

/** A package of special functions brings a logger for its own makers, which would load Node's terminal and network. */
function withoutLogger({ onResolve, onLoad }) {
  const namespace = 'without-logger';
  onResolve({ filter: /^debug$/ }, () => ({ path: 'debug', namespace }));
  onLoad({ filter: /.*/, namespace }, () => ({ contents: 'module.exports = () => () => {};' }));
}

/** A script that is one command leaves the others, which load when they are asked for, where they are. */
export const otherCommandsElsewhere = {
  name: 'other-commands-elsewhere',
  setup({ onResolve }) {
    onResolve({ filter: /^\.\// }, ({ kind, importer, path }) =>
      kind === 'dynamic-import' && /[\\/]commands[\\/]run\.ts$/.test(importer)
        ? { path, external: true }
        : undefined,
    );
  },
};
