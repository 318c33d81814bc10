/** Said wherever results leave the program. */
export const CAUTION =
  'Decision support only: check every result. Local policy and licensed judgement come first; no computed value is an order.';
