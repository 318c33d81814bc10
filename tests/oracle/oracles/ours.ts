import { createValidator, loadDefinitions } from '../../../src/conformance/index.js';
import { inProcess, type Oracle } from './oracle.js';

/** The validator under test, over the compiled definitions that are shipped; never kept, since it is what changes. */
export function oursOracle(): Oracle {
  const validator = createValidator(loadDefinitions());
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
