import { createHash } from 'node:crypto';
import { exampleFiles, preparedExample } from './examples.js';

// Run in another time zone by the test of equal bytes: one digest an example.
for (const file of exampleFiles) {
  const { submission, document, reports, timeline } = preparedExample(file);
  process.stdout.write(
    `${file} ${createHash('sha256')
      .update(JSON.stringify([submission, document, reports, timeline]))
      .digest('hex')}\n`,
  );
}
