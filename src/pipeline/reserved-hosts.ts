import { isLoopback } from '../delivery/destination/destination.js';
import { OWN_BASE } from '../fhir/profiles.js';
import { type Finding, finding } from '../findings/finding.js';

/** Names that are set aside for documentation and tests. Source: RFC 2606, sections 2 and 3. */
const RESERVED = /(?:^|\.)(?:example|test|invalid|localhost|example\.(?:com|net|org))$/i;

/** Whole strings that are addresses, and the numbering systems of searches by identifier. */
const ADDRESS = /"(https?:\/\/[^"\\\s]+)"|[?&]identifier=(https?%3A%2F%2F[^|"&]+)/g;

/** How many are named in one finding. */
const NAMED = 8;

/**
 * Addresses in FHIR JSON that nobody can own, each once; those of our profiles and code systems as their common start.
 * Somebody else's record keeps them for good, and another sender may use the same.
 */
export function reservedAddresses(text: string | Iterable<string>): string[] {
  const found = new Set<string>();
  for (const json of typeof text === 'string' ? [text] : text)
    for (const [, whole, encoded] of json.matchAll(ADDRESS)) {
      const address = whole ?? decoded(encoded ?? '');
      if (RESERVED.test(hostOf(address))) found.add(address.startsWith(`${OWN_BASE}/`) ? OWN_BASE : address);
    }
  return [...found].sort();
}

const hostOf = (address: string): string => (URL.canParse(address) ? new URL(address).hostname : '');

function decoded(text: string): string {
  try {
    return decodeURIComponent(text);
  } catch {
    return '';
  }
}

/**
 * One finding for all that a submission would leave with somebody else.
 * @param text FHIR JSON that is left there, whole or in pieces that cut no address in two
 * @param to name of the destination or registry
 * @param address of the server: on this machine, where cases are tried, it is a mere note
 */
export function reservedHosts(text: string | Iterable<string>, to: string, address?: string): Finding[] {
  const addresses = reservedAddresses(text);
  if (addresses.length === 0) return [];
  const found = finding('delivery.reserved-host', 'destination', {
    destination: to,
    addresses: addresses.slice(0, NAMED).join(', '),
  });
  const here = address !== undefined && isLoopback(new URL(address).hostname);
  return [here ? { ...found, severity: 'information' } : found];
}
