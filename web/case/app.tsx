import { useEffect, useState } from 'preact/hooks';
import { CaseView } from './case-view.js';
import { Home } from './home/home.js';

const idIn = (hash: string) => /^#([\w-]{8,64})(?:\/finish)?$/.exec(hash)?.[1];

/** The case that the address names by its id; without one, the cases of today and yesterday. */
export function App() {
  const [id, setId] = useState(idIn(location.hash));
  useEffect(() => {
    const moved = () => setId(idIn(location.hash));
    addEventListener('hashchange', moved);
    // It may have changed since the page was drawn for the first time.
    moved();
    return () => removeEventListener('hashchange', moved);
  }, []);
  return id === undefined ? <Home /> : <CaseView key={id} id={id} />;
}
