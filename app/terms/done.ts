// What was just done, as the next page says it in one line: the closed set of such lines, each with its fact.

/** Lines that need no fact. */
export const plainDone = [
  'account-activated',
  'account-added',
  'account-deactivated',
  'cord-corrected',
  'cord-ruled',
  'decision-signed',
  'draw-made',
  'item-changed',
  'item-defined',
  'lot-announced',
  'lot-closed',
  'lot-corrected',
  'lot-received',
  'lot-recounted',
  'lot-withdrawn',
  'password-changed',
  'plan-frozen',
  'role-changed',
  'rule-chosen',
  'series-noted',
  'signed-out',
  'signed-out-elsewhere',
  'supplier-registered',
] as const

/** Lines about a number. */
export const countedDone = ['results-recorded'] as const

export type Done = { code: (typeof plainDone)[number] } | { code: (typeof countedDone)[number]; count: number }
