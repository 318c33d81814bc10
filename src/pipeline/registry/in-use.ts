import type { Validator } from '../../conformance/result.js';
import { CasetallyError } from '../../findings/errors.js';
import type { Finding } from '../../findings/finding.js';
import { type RegistryOptions, registrySchema } from '../../registry/options.js';
import type { OpenedSite } from '../open-case.js';
import { canonicalOf, codeOptionsOf } from '../settings.js';
import type { RegistryToBuild } from './collect.js';
import { type ReadDefinition, readDefinition } from './definition-file.js';
import { registryKey } from './key.js';

/** A registry of the site configuration, ready for use. */
export interface RegistryInUse extends RegistryToBuild {
  /** SHA-256 of its definition. */
  readonly definitionDigest?: string;
  /** What there is to say of its settings. */
  readonly findings: readonly Finding[];
}

/**
 * Opens a registry: its settings, its secret and its definition.
 * @param asked name of it; the only one of the site when absent
 * @throws CasetallyError 'usage', 'settings-invalid' or 'file-unreadable'.
 */
export async function openRegistry(
  opened: OpenedSite,
  asked: string | undefined,
  validator: Validator,
): Promise<RegistryInUse> {
  const { site, folder } = opened;
  const { name, options } = chosen(opened, asked);
  const { key, findings } = await registryKey(name, options, folder);
  const read: Partial<ReadDefinition> =
    options.definition === undefined ? {} : await readDefinition(options.definition, folder);
  const { organization } = site;
  return {
    ...{ name, key, validator, findings, options: { ...options, ...canonicalOf(site) } },
    ...(read.definition && { definition: read.definition }),
    ...(read.sha256 !== undefined && { definitionDigest: read.sha256 }),
    extras: {
      codes: codeOptionsOf(site),
      unit: options.unit ?? organization.identifier?.value ?? organization.name,
    },
  };
}

function chosen({ site }: OpenedSite, asked: string | undefined): { name: string; options: RegistryOptions } {
  const names = Object.keys(site.registries);
  const name = asked ?? (names.length === 1 ? names[0] : undefined);
  const options = name === undefined ? undefined : site.registries[name];
  if (name !== undefined && options) return { name, options };
  if (asked !== undefined)
    throw new CasetallyError(
      'usage',
      `the site configuration has no registry '${asked}'; it has ${names.join(', ') || 'none'}.`,
    );
  if (names.length > 1)
    throw new CasetallyError(
      'usage',
      `the site has several registries: name one with --registry (${names.join(', ')}).`,
    );
  return { name: 'unnamed registry', options: registrySchema.parse({ name: 'unnamed registry' }) };
}
