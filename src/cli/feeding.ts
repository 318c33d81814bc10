import type { Outbox } from '../delivery/outbox/outbox.js';
import { reason } from '../findings/errors.js';
import type { OpenedCase, OpenedSite } from '../pipeline/open-case.js';
import { feeding } from '../pipeline/register/feed.js';
import { takeCase } from '../pipeline/register/take.js';
import { caseSystemOf } from '../pipeline/settings.js';
import type { Register } from '../register/store/register.js';
import type { Output } from './output.js';
import { openRegister } from './process.js';
import { filled } from './terminal/fill.js';

/** The register as what sends cases tells it of them; it is opened with the first. */
export interface Feed {
  /** The outbox, watched for what is accepted; as it is where the site keeps no register. */
  readonly of: (outbox: Outbox) => Outbox;
  /** A case that was accepted without an outbox. */
  readonly direct: (opened: OpenedCase) => Promise<void>;
  readonly close: () => Promise<void>;
}

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
  const deps = {
    site,
    clock,
    register: {
      take: async (...args: Parameters<Register['take']>) => (await register()).take(...args),
      notReplayed: async (items: readonly string[]) => (await register()).notReplayed(items),
      setReplayed: async (items: readonly string[]) => (await register()).setReplayed(items),
    },
  };
  return {
    of: outbox => (site.site.register ? feeding(outbox, deps, onFault) : outbox),
    direct: async one => {
      if (site.site.register) await takeCase(one, site.site, deps.register, clock()).catch(onFault);
    },
    close: async () => {
      await (await opened?.catch(() => undefined))?.close();
    },
  };
}
