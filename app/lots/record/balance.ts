// Where the cords of a decided lot went: every one that was received is kept, sent back or missing.
import type { LotState } from '../../terms/lot.ts'
import { decidedStates, openStates } from '../rules/lifecycle.ts'
import { nonconformingOf, type Tally } from './tally.ts'

/** received = kept + sentBack + missing; what a recount did not find is missing */
export type Balance = { received: number; kept: number; sentBack: number; missing: number }

/** Accepting never includes the cords found nonconforming: they are taken out and sent back. Undefined until the last decision. */
export function balanceOf(
  { size: received, state }: { size: number | null; state: LotState },
  tally: Tally,
): Balance | undefined {
  if (received === null || !decidedStates.includes(state) || openStates.includes(state)) return undefined
  const { noCord, recountedSize = received - noCord } = tally
  const missing = tally.missing + (received - noCord - recountedSize)
  const sentBack = state === 'returned' ? received - missing : nonconformingOf(tally) + noCord - tally.missing
  return { received, kept: received - sentBack - missing, sentBack, missing }
}
