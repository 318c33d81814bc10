import { z } from 'zod';
import { destinationSchema } from '../delivery/destination/schema.js';
import { contentGroupNames } from '../fhir/contents.js';
import { subjects } from '../fhir/options.js';
import { languageOf, languages } from '../findings/languages.js';
import { deviceFamilies } from '../record/schema/devices.js';
import { isTimeZone } from '../record/time.js';
import { registrySchema } from '../registry/options.js';
import { aftercareSchema, clinicalSchema } from './clinical.js';
import { intakeSchema } from './intake.js';
import { routeSchema } from './routes.js';
import { serviceSchema } from './service.js';

const days = z.number().int().min(0).max(3_650);
const text = z.string().trim().min(1);
const address = z.string().regex(/^(urn:|https?:\/\/)\S+$/);
const identifier = z.strictObject({ system: address, value: z.union([text, z.number().transform(String)]) });
const coding = z.strictObject({ system: text, code: text, display: text.optional() });

/** How a submission points at something that the destination's record already holds. */
const referenceMode = z
  .enum(['match', 'include', 'identifier'])
  .describe(
    'match: by search at the destination, which must find exactly one; include: sent along and created when absent; identifier: named by number only',
  );

/** The same for people, departments and rooms, which a receiver has in lists of its own. */
const staffMode = z
  .enum(['match', 'include', 'identifier', 'name'])
  .describe(
    'As for the patient, and name: by name alone, which is also how whatever has no number goes unless it is included',
  );

const contents = z
  .enum(['core', 'full'])
  .describe('core: what a record system stores and searches; full: everything, as in the document');
const groups = z
  .partialRecord(z.enum(contentGroupNames), z.boolean())
  .describe('Groups of resources that are sent, or not, whatever contents says');

/** The configuration of one site. Secrets are never in it: only the name of a variable or file that holds one. */
export const siteSchema = z
  .strictObject({
    casetallySite: z.union([z.literal(1), z.literal('1')]).transform(() => 1 as const),
    name: text,
    namespace: z
      .uuid()
      .describe('Any UUID, made once for this site and never changed: every identifier follows from it'),
    timeZone: text.refine(isTimeZone, { error: 'is not an IANA time zone name' }).optional(),
    language: z
      .preprocess(
        tag => (typeof tag === 'string' ? (languageOf(tag) ?? tag) : tag),
        z.enum(languages).default('en-GB'),
      )
      .describe('Language of reports; a tag with a region is read in its language: de-CH in de'),
    organization: z.strictObject({ name: text, identifier: identifier.optional(), phone: text.optional() }),
    contact: text.optional().describe('Whom ward and referrer call, when a record names nobody'),
    identifiers: z
      .strictObject({
        case: address.optional(),
        accession: address.optional(),
        resource: address
          .optional()
          .describe('Numbering system of the identifiers that every resource carries'),
      })
      .prefault({}),
    references: z
      .strictObject({
        patient: referenceMode.default('match'),
        encounter: referenceMode.default('match'),
        order: referenceMode.default('match'),
        practitioner: staffMode.default('match'),
        organization: staffMode.default('match'),
        location: staffMode.default('match'),
      })
      .prefault({}),
    coding: z
      .strictObject({
        jurisdiction: address.optional().describe('Jurisdiction of device identifiers, for udiCarrier'),
        issuers: z
          .enum(['element', 'mapping'])
          .default('element')
          .describe('Which of the two spellings of issuer addresses in FHIR R4 to write'),
        local: z
          .record(text, z.array(coding.extend({ what: z.enum(subjects).optional() })))
          .prefault({})
          .describe(
            'Local codes by the text they stand for, for names of one kind of thing (what) or of all',
          ),
        codes: text
          .optional()
          .describe('CSV file of local codes, relative to this file: what, text, system, code, display'),
      })
      .prefault({}),
    fhir: z
      .strictObject({
        contents: contents.default('core'),
        groups: groups.prefault({}),
        canonical: z
          .url({
            protocol: /^https?$/,
            error: 'is not an address such as https://fhir.example.org/casetally',
          })
          .transform(url => url.replace(/\/+$/, ''))
          .refine(url => !/[?#|]/.test(url), 'has a query, a fragment or a version')
          .optional()
          .describe(
            'Address of the site under which our profiles and code systems are published, in place of one that nobody can own',
          ),
        documentType: coding
          .optional()
          .describe("Type of the report as a document; LOINC's procedure note when absent"),
        facilityType: coding
          .optional()
          .describe('Kind of place that the site is, for those who share documents'),
        snomedLicence: z
          .boolean()
          .default(false)
          .describe(
            'Also send SNOMED CT codes beyond the free Global Patient Set, which a site may do under a licence alone',
          ),
        codesFromMemory: z
          .boolean()
          .default(false)
          .describe(
            'Also send codes that no published package carries and that were recalled: look them up first',
          ),
        negativeStatements: z
          .boolean()
          .default(false)
          .describe(
            'Also send as resources that there is no known allergy, no anticoagulant and no sedation; otherwise a none stands in the document alone',
          ),
      })
      .prefault({}),
    devices: z
      .strictObject({
        catalogue: text.optional().describe('CSV, JSON or NDJSON file with device details by identifier'),
        expiresWithinDays: z.number().int().min(0).max(3650).default(30),
        separators: z
          .array(text)
          .optional()
          .describe('What the scanners print in place of the group separator'),
        kinds: z
          .record(text, z.enum(deviceFamilies))
          .prefault({})
          .describe('Local names of devices, and the family each belongs to'),
      })
      .prefault({}),
    report: z
      .strictObject({
        templates: text
          .optional()
          .describe(
            'Folder on disk, relative to this file, with layouts (ward.yaml) and templates that go before the shipped ones; only an administrator may write it',
          ),
        unreviewedLetters: z
          .boolean()
          .default(false)
          .describe('Also give patients letters in a language whose texts no clinician has reviewed'),
        diagnosticReport: z
          .boolean()
          .default(false)
          .describe(
            'Also send the report as a DiagnosticReport, for receivers that file reports of imaging so',
          ),
      })
      .prefault({}),
    clinical: clinicalSchema.prefault({}),
    aftercare: aftercareSchema.prefault({}),
    intake: intakeSchema.prefault({}),
    destinations: z
      .record(
        text,
        destinationSchema.extend({
          references: z
            .strictObject({
              patient: referenceMode.optional(),
              encounter: referenceMode.optional(),
              order: referenceMode.optional(),
              practitioner: staffMode.optional(),
              organization: staffMode.optional(),
              location: staffMode.optional(),
            })
            .optional()
            .describe('Where this destination needs other references than the site'),
          contents: contents.optional(),
          groups: groups.optional(),
        }),
      )
      .prefault({}),
    routes: z
      .array(routeSchema)
      .prefault([])
      .describe('Which cases go to which destinations, where none is named on the command line'),
    registries: z.record(text, registrySchema).prefault({}),
    register: z
      .strictObject({
        patientSystem: address
          .optional()
          .describe('Numbering system that people go by; needed where patients have several numbers'),
        updateDestinations: z
          .boolean()
          .default(true)
          .describe(
            'Bring devices, uses and plans that earlier cases left at destinations up to date when a later case took the device out',
          ),
      })
      .optional()
      .describe('Keep a register of the devices inside patients: each accepted case is taken into it'),
    service: serviceSchema.prefault({}),
    drafts: z
      .strictObject({
        discardedDays: days
          .default(30)
          .describe('Days that discarded drafts are kept before they are erased'),
        takenInDays: days.default(90).describe('Days that drafts are kept once their case is in the outbox'),
        graceMinutes: z
          .number()
          .int()
          .min(0)
          .max(1_440)
          .default(10)
          .describe('Minutes after signing in which the signature can be taken back; then the case leaves'),
      })
      .prefault({})
      .describe('Drafts of cases, which lie beside the outbox; casetally drafts purge erases'),
    outbox: z
      .strictObject({
        initials: z
          .boolean()
          .default(false)
          .describe("Show the patient's initials beside the case in lists of the outbox"),
      })
      .prefault({}),
  })
  .superRefine(({ routes, destinations, registries }, context) => {
    for (const [name, { destination }] of Object.entries(registries)) {
      if (destination === undefined || Object.hasOwn(destinations, destination)) continue;
      const known = Object.keys(destinations).join(', ') || 'none';
      context.addIssue({
        code: 'custom',
        path: ['registries', name, 'destination'],
        message: `is none of the destinations (${known})`,
      });
    }
    for (const [index, { to }] of routes.entries()) {
      if (Object.hasOwn(destinations, to)) continue;
      const known = Object.keys(destinations).join(', ') || 'none';
      context.addIssue({
        code: 'custom',
        path: ['routes', index, 'to'],
        message: `is not among the destinations (${known})`,
      });
    }
  });

/** Settings of one site, complete. */
export type Site = z.output<typeof siteSchema>;

/** What is used when no site configuration is given: good for trying out, and for nothing else. */
export const unconfiguredSite: Site = siteSchema.parse({
  casetallySite: 1,
  name: 'unconfigured site',
  namespace: '7c8b1b1e-52f0-5d0a-9a55-3c1f6d3f0a01',
  organization: { name: 'Unconfigured site' },
  // A server for trying out holds no patient yet; a real one does, and a configured site matches by default.
  references: {
    ...{ patient: 'include', encounter: 'include', order: 'include' },
    ...{ practitioner: 'name', organization: 'name', location: 'name' },
  },
});
