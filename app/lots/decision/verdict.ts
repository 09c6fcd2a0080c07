// What the frozen plan says of the cords recorded so far.
import type { PlanKind, Verdict } from '../show.ts'

/** recorded and found: cords that count towards the sample, and how many of them do not conform. */
export type Count = { recorded: number; found: number }

/**
 * The plan's verdict, or undefined while it has none. It rejects as soon as the acceptance number is exceeded, and
 * accepts only when the whole sample is recorded. Testing every cord rejects nothing: each cord goes by its own result.
 *
 * @example verdictOf({ kind: 'single', sampleSize: 50, acceptanceNumber: 1 }, { recorded: 12, found: 2 }) // 'reject'
 */
export function verdictOf(
  plan: { kind: PlanKind; sampleSize: number; acceptanceNumber: number },
  { recorded, found }: Count,
): Verdict | undefined {
  if (plan.kind !== 'every-cord' && found > plan.acceptanceNumber) return 'reject'
  return recorded >= plan.sampleSize ? 'accept' : undefined
}
