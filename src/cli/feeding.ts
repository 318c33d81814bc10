import { waitFor } from '../delivery/http/wait.js';
import type { Outbox } from '../delivery/outbox/outbox.js';
import type { WorkerDeps } from '../delivery/worker/worker.js';
import { reason } from '../findings/errors.js';
import type { OpenedCase, OpenedSite } from '../pipeline/open-case.js';
import type { CarriedOut } from '../pipeline/register/destination/carry-out.js';
import { feeding } from '../pipeline/register/feed.js';
import { takeCase } from '../pipeline/register/take.js';
import { caseSystemOf } from '../pipeline/settings.js';
import type { Register } from '../register/store/register.js';
import { carryOutNow, printCarried } from './carrying.js';
import type { Output } from './output.js';
import { openRegister } from './process.js';
import { filled } from './terminal/fill.js';

/** The register as what sends cases tells it of them; it is opened with the first. */
export interface Feed {
  /** The outbox, watched for what is accepted; as it is where the site keeps no register. */
  readonly of: (outbox: Outbox) => Outbox;
  /** A case that destinations accepted without an outbox. */
  readonly direct: (opened: OpenedCase, destinations: readonly string[]) => Promise<void>;
  /** What a worker goes by beside the receipts: what the register changed at a destination. */
  readonly alsoWrote: NonNullable<WorkerDeps['alsoWrote']>;
  /** Brings up to date at destinations what the cases that came in say of earlier ones. */
  readonly carryOut: (flags: { readonly json?: boolean }, outbox?: Outbox) => Promise<void>;
  /** Does so again and again with whatever is due, until it is told to stop. */
  readonly keepCarryingOut: (
    outbox: Outbox,
    stop: AbortSignal,
    onCase: (done: CarriedOut) => void,
  ) => Promise<void>;
  readonly close: () => Promise<void>;
}

/** How often a worker looks for what is due. */
const BETWEEN_MS = 5_000;

/** Feeds the register where the site keeps one. What goes wrong with it is said, and never touches the delivery. */
export function registerFeed(site: OpenedSite, data: string | undefined, output: Output): Feed {
  let opened: Promise<Register> | undefined;
  const clock = () => Date.now();
  const register = () => {
    opened ??= openRegister(data, caseSystemOf(site.site)).then(({ register: made }) => made);
    return opened;
  };
  const onFault = (error: unknown) =>
    output.err(
      filled(
        `casetally: the case was accepted, but the register could not take it in: ${reason(error)}. It is taken in with the next command of casetally register.`,
        output.columns,
      ),
    );
  const changed = new Set<string>();
  const goes = site.site.register?.updateDestinations === true;
  const onOwed = (error: unknown) =>
    output.err(
      filled(
        `casetally: what earlier cases left at destinations could not be brought up to date: ${reason(error)}. casetally register update-destinations tries again.`,
        output.columns,
      ),
    );
  const deps = {
    site,
    clock,
    onChanged: (cases: readonly string[]) => {
      for (const one of cases) changed.add(one);
    },
    register: {
      take: async (...args: Parameters<Register['take']>) => (await register()).take(...args),
      notReplayed: async (items: readonly string[]) => (await register()).notReplayed(items),
      setReplayed: async (items: readonly string[]) => (await register()).setReplayed(items),
    },
  };
  return {
    of: outbox => (site.site.register ? feeding(outbox, deps, onFault) : outbox),
    direct: async (one, destinations) => {
      if (!site.site.register) return;
      for (const destination of destinations) {
        const take: Register['take'] = (version, now) => deps.register.take({ ...version, destination }, now);
        const made = await takeCase(one, site.site, { take }, clock()).catch(onFault);
        deps.onChanged(made?.taken?.changed ?? []);
      }
    },
    alsoWrote: async (destination, values) =>
      site.site.register
        ? register().then(
            ({ owed }) => owed.changed(destination, values),
            () => new Map(),
          )
        : new Map(),
    carryOut: async ({ json }, outbox) => {
      if (!goes || changed.size === 0) return;
      const cases = [...changed];
      changed.clear();
      try {
        const { owed } = await register();
        const done = await carryOutNow({ owed, site, data, outbox, cases }, output);
        printCarried(json ? done.map(one => ({ ...one, updated: [] })) : done, output);
      } catch (error) {
        onOwed(error);
      }
    },
    keepCarryingOut: async (outbox, stop, onCase) => {
      if (!goes) return;
      while (!stop.aborted) {
        try {
          const { owed } = await register();
          (await carryOutNow({ owed, site, data, outbox, stop }, output)).forEach(onCase);
        } catch (error) {
          onOwed(error);
        }
        await waitFor({ signal: stop }, BETWEEN_MS);
      }
    },
    close: async () => {
      await (await opened?.catch(() => undefined))?.close();
    },
  };
}
