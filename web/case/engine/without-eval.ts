import { z } from 'zod';

/* First of all imports: the policy of the page lets no text become code, and trying to would be told as a fault. */
z.config({ jitless: true });
