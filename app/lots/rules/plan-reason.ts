// Why a plan is taken that lets more lots with too many through than its item demands. A stronger plan keeps no reason.
import type { ClauseColumns } from '../../kit/clause.ts'
import { lengths } from '../../kit/limits.ts'
import { Refusal } from '../../kit/refusal.ts'

/** What is said: own words, the contract's clause, or both. */
export type SaidReason = { reason?: string | undefined; byClause?: boolean | undefined }
export type KeptReason = { reason: string | undefined; byClause: boolean }

/**
 * The reason as it is kept. Throws Refusal at `reason` where none is given or a longer one than there is room for, and where a clause is named
 * that neither the order nor the item has.
 */
export function reasonOf(said: SaidReason, clause: ClauseColumns): KeptReason {
  const kept = optionalReasonOf(said, clause)
  if (!isReason(kept, clause)) throw new Refusal('invalid', 'plan/weaker', {}, 'reason')
  return kept
}

/** The same where it may be missing. */
export function optionalReasonOf(said: SaidReason, { clauseNumber }: ClauseColumns): KeptReason {
  const reason = said.reason?.trim() ?? ''
  const byClause = said.byClause ?? false
  if (reason.length > lengths.reason) throw new Refusal('invalid', 'plan/reason-length', {}, 'reason')
  if (byClause && clauseNumber === null) throw new Refusal('invalid', 'plan/no-clause', {}, 'reason')
  return { reason: reason === '' ? undefined : reason, byClause }
}

/** Whether a weaker plan may be taken for it. */
export function isReason({ reason, byClause }: KeptReason, { clauseNumber }: ClauseColumns): boolean {
  return reason !== undefined || (byClause && clauseNumber !== null)
}
