import { digests } from './digests.js';

// Run in another time zone by the test of equal bytes.
process.stdout.write(digests(process.argv.slice(2)));
