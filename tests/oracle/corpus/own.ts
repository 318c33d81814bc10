import { exampleFiles, exampleName, preparedExample } from '../../support/examples.js';
import { type Example, example } from './examples.js';

/** Our own output: the submission and the document that each example case becomes, attachments and all. */
export function ownExamples(): Example[] {
  return exampleFiles.flatMap(file => {
    const { submission, document } = preparedExample(file);
    const name = exampleName(file);
    return [example(`own/${name}/submission`, submission), example(`own/${name}/document`, document)];
  });
}
