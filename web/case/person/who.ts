import { useEffect, useState } from 'preact/hooks';
import { keepAsking } from '../ask/ask.js';
import { typedName } from '../desk/service.js';

/** GET /me. */
interface SignedIn {
  readonly signedIn: true;
  readonly name: string;
  /** False where the name was typed on the machine of the service. */
  readonly verified: boolean;
  readonly rights: readonly string[];
}
type Me = SignedIn | { readonly signedIn: false; readonly signIn: 'provider' | 'link' | 'none' };

/** Who is at the page. */
export interface Who {
  readonly name: string | undefined;
  /** The identity provider said who it is; else the name was typed. */
  readonly verified: boolean;
  readonly signedIn: boolean;
  /** People can sign in at this service. */
  readonly canSignIn: boolean;
  /** The name that requests must say; whoever is signed in need not. */
  readonly by: string | undefined;
  may(right: string): boolean;
}

/** Who is at the page; looked at again whenever it comes into sight, since another tab may have signed out. */
export function useWho(): Who | undefined {
  const [who, setWho] = useState<Who>();
  useEffect(() => {
    let stop = () => {};
    const look = () => {
      if (document.hidden) return;
      stop();
      stop = keepAsking<Me>('me', {}, answer => {
        if (answer.ok) setWho(whoOf(answer.body));
      });
    };
    look();
    document.addEventListener('visibilitychange', look);
    return () => {
      stop();
      document.removeEventListener('visibilitychange', look);
    };
  }, []);
  return who;
}

function whoOf(me: Me): Who {
  if (me.signedIn)
    return {
      ...{ name: me.name, verified: me.verified, signedIn: true, canSignIn: true, by: undefined },
      may: right => me.rights.includes(right),
    };
  const canSignIn = me.signIn !== 'none';
  const by = canSignIn ? undefined : typedName();
  return { name: by, verified: false, signedIn: false, canSignIn, by, may: () => !canSignIn };
}
