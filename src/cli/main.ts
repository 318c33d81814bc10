#!/usr/bin/env node
import { processOutput } from './output.js';
import { run } from './program.js';

// A reader that goes away (a pager that was closed) is no fault of ours.
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code === 'EPIPE') process.exit(0);
  throw error;
});

process.exitCode = await run(process.argv.slice(2), processOutput());
