import { describe } from 'vitest';
import { startSandbox } from '../../src/service/sandbox/server.js';
import { searchesAt } from '../support/searches.js';

describe('searches of docs/mapping.md', () => searchesAt(startSandbox));
