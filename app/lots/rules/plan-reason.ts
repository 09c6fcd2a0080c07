// Why a plan is taken that lets more lots with too many through than its item demands. A stronger plan keeps no reason.
import { lengths } from '../../kit/limits.ts'
import { Refusal } from '../../kit/refusal.ts'

/** The reason as it is kept. Throws Refusal at `reason` where none is given, or a longer one than there is room for. */
export function reasonOf(said: string | undefined): string {
  const reason = optionalReasonOf(said)
  if (reason === undefined) throw new Refusal('invalid', 'plan/weaker', {}, 'reason')
  return reason
}

/** The same where it may be missing. */
export function optionalReasonOf(said: string | undefined): string | undefined {
  const reason = said?.trim() ?? ''
  if (reason.length > lengths.reason) throw new Refusal('invalid', 'plan/reason-length', {}, 'reason')
  return reason === '' ? undefined : reason
}
