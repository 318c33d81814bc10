import { CasetallyError } from '../../../findings/errors.js';
import { finding } from '../../../findings/finding.js';
import { goesTo } from '../../../pipeline/destinations.js';
import { openBytes } from '../../../pipeline/open-case.js';
import { caseKey } from '../../../pipeline/outbox-item.js';
import type { Tools } from '../../../pipeline/prepare.js';
import { caseTools } from '../../../pipeline/prepare-opened.js';
import { openReceiver } from '../../../pipeline/receiver.js';
import { takeCase } from '../../../pipeline/register/take.js';
import { sendCase } from '../../../pipeline/send-case.js';
import type { Taken } from '../../../register/store/register.js';
import { asked, type OutboxQuestion, storeThrough } from '../../../service/threads/outbox-questions.js';
import type { Ask } from '../../../service/threads/thread.js';
import { writeAll } from '../../files.js';
import { processDeps, secretsFrom } from '../../process.js';
import type { CaseFile } from '../open-case.js';
import { filesOf } from '../prepare.js';
import { preparedOf, signed } from '../prepared.js';
import type { BulkAnswer, BulkJob, BulkQuestion, BulkThreadData } from './job.js';
import { setAside } from './set-aside.js';

/** Works one record out and stores, writes or takes it, by the same steps as the commands for one case. */
export async function bulkWorker({
  site,
  goal,
  data,
  softwareVersion,
  pdf,
}: BulkThreadData): Promise<(job: BulkJob, ask: Ask<BulkQuestion>) => Promise<BulkAnswer>> {
  // The register keeps the record, and nothing is drawn for it.
  const tools = goal.do === 'register' ? undefined : toolsFor(await caseTools(site, softwareVersion), pdf);
  const process = processDeps(data);
  const secrets = secretsFrom(site.folder);
  return async (job, ask) => {
    try {
      return await answerTo(job, ask);
    } catch (error) {
      if (error instanceof CasetallyError)
        return { kind: 'broken', code: error.code, message: error.message };
      return setAside([finding('bulk.died', '', {})]);
    }
  };

  async function answerTo(job: BulkJob, ask: Ask<BulkQuestion>): Promise<BulkAnswer> {
    const { bytes, file } = job;
    const opened: CaseFile = { ...(await openBytes(bytes, site, Date.now())), file };
    const { record } = opened;
    if (!record) return setAside(opened.findings, { unreadable: opened.unreadable });
    const inTurn = async () => {
      const ofCase = caseKey(record, site.site.namespace);
      await asked(ask, { ask: 'turn', job: job.number, case: ofCase });
    };
    switch (goal.do) {
      case 'register': {
        await inTurn();
        const take = async (version: Parameters<typeof takeThrough>[1], now: number) =>
          takeThrough(ask, version, now);
        const made = await takeCase(opened, site.site, { take }, Date.now(), goal.system);
        return made.fate === 'held back' || made.fate === 'unreadable'
          ? setAside(made.findings, { unreadable: made.fate === 'unreadable' })
          : { kind: 'done', counted: made.findings };
      }
      case 'write': {
        const made = await preparedOf(opened, site, [], [], tools);
        const prepared = made && (await signed(made, site, goal.sign, 'write'));
        if (!prepared?.sendable || job.folder === undefined)
          return setAside((prepared ?? opened).findings, { unreadable: opened.unreadable });
        await asked(ask, { ask: 'writing' });
        await writeAll(job.folder, filesOf(opened, prepared), { beside: job.staging });
        return { kind: 'done', counted: prepared.findings };
      }
      case 'store':
        return stored(opened, inTurn, question => ask({ ...question, key: job.key }));
    }
  }

  async function stored(
    opened: CaseFile,
    inTurn: () => Promise<void>,
    ask: Ask<OutboxQuestion>,
  ): Promise<BulkAnswer> {
    if (goal.do !== 'store') throw new TypeError('this case is not to be stored');
    const { to, sign } = goal;
    if (to === undefined && goesTo(site.site, opened.record).length === 0)
      return setAside([...opened.findings, finding('bulk.no-route', 'case', {})]);
    await inTurn();
    const { sent, unusable } = await sendCase(
      { checked: opened, site: site.site, to, how: 'store' },
      {
        prepare: async (own, before) => {
          const made = await preparedOf(opened, { ...site, site: own }, [], before, tools);
          return made && signed(made, { ...site, site: own }, sign, 'send');
        },
        receiver: name => openReceiver(site, name),
        store: storeThrough(ask),
        outbox: async () => undefined,
        ...{ secrets, process },
      },
    );
    if (unusable.length > 0)
      throw new CasetallyError(
        'settings-invalid',
        'a destination of the site configuration cannot be used: casetally doctor says why.',
      );
    const all = sent.flatMap(({ findings }) => findings);
    if (sent.every(({ kind }) => kind === 'stored')) return { kind: 'done', counted: all };
    const early = all.some(({ code }) => code === 'correction.earlier-not-given');
    return setAside(all, { unreadable: opened.unreadable, early });
  }
}

function toolsFor(tools: Tools, pdf: boolean): Tools {
  if (pdf) return tools;
  const { pdf: _pdf, ...plain } = tools;
  return plain;
}

async function takeThrough(
  ask: Ask<BulkQuestion>,
  version: Extract<BulkQuestion, { ask: 'take' }>['version'],
  now: number,
): Promise<Taken> {
  return (await asked(ask, { ask: 'take', version, now })) as Taken;
}
