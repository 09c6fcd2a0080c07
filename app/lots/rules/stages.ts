// A plan of several stages as the officer may freeze it for a lot, and as a form writes it.

import { z } from 'zod'
import { Refusal } from '../../kit/refusal.ts'
import { checkStages, type Stage } from '../../statistics/plans/plan.ts'
import type { StagedKind } from '../../terms/lot.ts'
import type { RefusalCode, RefusalFacts } from '../../terms/refusals.ts'

/** How many looks each kind may have: two samples, groups of two cords and more, cord by cord, one or two samples of the published standard. */
const mostLooks: Record<StagedKind, number> = { double: 2, groups: 5_000, sequential: 10_000, standard: 2 }

/** Stages as a form writes them: 74/1/4 155/3/4, cords in all / accept up to / reject from. */
export const stagesField = z
  .string({ error: unreadable() })
  .regex(/^\d{1,7}\/(-1|\d{1,7})\/\d{1,7}( \d{1,7}\/(-1|\d{1,7})\/\d{1,7})*$/, { error: unreadable() })
  .transform((typed) => typed.split(' ').map(stageIn))

function unreadable(): string {
  return 'This form is not whole: load the page again'
}

function stageIn(typed: string): Stage {
  const [sampleSize = 0, acceptanceNumber = 0, rejectionNumber = 0] = typed.split('/').map(Number)
  return { sampleSize, acceptanceNumber, rejectionNumber }
}

/**
 * The plan as it is kept: its stages, and the numbers of the last one beside them. Throws Refusal that names `stages` where
 * they are no plan of their kind for the lot: groups have the item's size, but for a last one that the lot cuts, samples must grow, the two numbers never fall, and the last stage decides.
 */
export function checkedStages(
  { kind, stages }: { kind: StagedKind; stages: readonly Stage[] },
  { lotSize, groupSize }: { lotSize: number; groupSize: number },
) {
  const last = stages.at(-1)
  if (!last || stages.length > mostLooks[kind] || (needsTwo(kind) && stages.length < 2))
    throw refuse('stages/of-kind', { kind })
  if (kind === 'sequential' && stages.some(({ sampleSize }, index) => sampleSize !== index + 1))
    throw refuse('stages/cord-by-cord', {})
  if (kind === 'groups' && stages.some(({ sampleSize }, at) => sampleSize !== Math.min(lotSize, (at + 1) * groupSize)))
    throw refuse('stages/groups', { groupSize })
  for (const [index, stage] of stages.entries()) {
    const before = stages[index - 1] ?? { sampleSize: 0, acceptanceNumber: -1, rejectionNumber: 0 }
    if (!(stage.sampleSize > before.sampleSize)) throw refuse('stages/no-growth', {})
    if (!(stage.acceptanceNumber >= before.acceptanceNumber)) throw refuse('stages/accepts-fewer', {})
    if (!(stage.rejectionNumber >= before.rejectionNumber)) throw refuse('stages/rejects-from-fewer', {})
  }
  checkAgainstLot(stages, lotSize)
  const { sampleSize, acceptanceNumber } = last
  if (acceptanceNumber < 0 || acceptanceNumber >= sampleSize)
    throw refuse('stages/last-number', { most: sampleSize - 1 })
  return { kind, sampleSize, acceptanceNumber, stages, groupSize: kind === 'groups' ? groupSize : null }
}

/** One stage of these is a single plan. */
function needsTwo(kind: StagedKind): boolean {
  return kind === 'double' || kind === 'groups'
}

/** The engine names the stage and the number that is out of range. */
function checkAgainstLot(stages: readonly Stage[], lotSize: number): void {
  try {
    checkStages({ stages }, lotSize)
  } catch (error) {
    if (error instanceof RangeError) throw refuse('stages/no-plan', { lotSize, why: error.message })
    throw error
  }
}

function refuse<C extends RefusalCode>(code: C, facts: RefusalFacts[C]): Refusal<C> {
  return new Refusal('invalid', code, facts, 'stages')
}
