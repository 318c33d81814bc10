import { BaseSequencer, type TestSpecification } from 'vitest/node';
import { long } from './by-turn.js';

/** The longest first: files begin by size where nothing is known of them, so these would run last and alone. */
const rank = new Map(['plants/plants', ...long].map((name, index) => [`/tests/${name}.test.ts`, index]));

export default class LongFirst extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const sorted = await super.sort(files);
    const rankOf = ({ moduleId }: TestSpecification) =>
      rank.get(moduleId.slice(moduleId.lastIndexOf('/tests/'))) ?? rank.size;
    return sorted.sort((a, b) => rankOf(a) - rankOf(b));
  }
}
