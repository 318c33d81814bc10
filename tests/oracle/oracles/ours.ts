import {
  createValidator,
  loadDefinitions,
  type PackageSource,
  shelfOf,
} from '../../../src/conformance/index.js';
import { inProcess, type Oracle } from './oracle.js';

/**
 * The validator under test, over the compiled definitions that are shipped and the given further ones; its verdicts
 * are never kept, since it is what changes.
 */
export function oursOracle(source?: PackageSource, resources: readonly unknown[] = []): Oracle {
  const shipped = loadDefinitions();
  const validator = createValidator(source ? shipped.with(shelfOf(source, resources)) : shipped);
  return inProcess('ours', ({ text, profiles }) => {
    const { issues } = validator.validateText(text, { profiles });
    return {
      issues: issues.map(({ severity, path, message, rule, key }) => ({
        severity,
        path,
        message,
        rule: key ?? rule,
      })),
    };
  });
}
