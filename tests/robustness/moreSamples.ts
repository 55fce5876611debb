import fc from 'fast-check';

// A property that states no number of samples of its own gets this many, and a new seed in each run.
fc.configureGlobal({ numRuns: 3000 });
