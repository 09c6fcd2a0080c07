// A plan of several stages as the officer may freeze it for a lot, and as a form writes it.

import { z } from 'zod'
import { Refusal } from '../../kit/refusal.ts'
import { checkStages, type Stage } from '../../statistics/plans/plan.ts'
import type { StagedKind } from '../../terms/lot.ts'

/** How many looks each kind may have: two samples, cord by cord, one or two samples of the published standard. */
const looks: Record<StagedKind, { most: number; means: string }> = {
  double: { most: 2, means: 'Two samples are two stages' },
  sequential: { most: 10_000, means: 'A plan cord by cord has at most 10,000 cords' },
  standard: { most: 2, means: 'The standard’s plans here have one or two samples' },
}

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
 * they are no plan of their kind for the lot: samples must grow, the two numbers never fall, and the last stage decides.
 */
export function checkedStages({ kind, stages }: { kind: StagedKind; stages: readonly Stage[] }, lotSize: number) {
  const last = stages.at(-1)
  const refuse = (sentence: string) => new Refusal('invalid', sentence, 'stages')
  const { most, means } = looks[kind]
  if (!last || stages.length > most || (kind === 'double' && stages.length < 2)) throw refuse(means)
  if (kind === 'sequential' && stages.some(({ sampleSize }, index) => sampleSize !== index + 1))
    throw refuse('Cord by cord, each stage adds one cord')
  for (const [index, stage] of stages.entries()) {
    const before = stages[index - 1] ?? { sampleSize: 0, acceptanceNumber: -1, rejectionNumber: 0 }
    if (!(stage.sampleSize > before.sampleSize)) throw refuse('Each stage adds at least one cord')
    if (!(stage.acceptanceNumber >= before.acceptanceNumber)) throw refuse('A later stage accepts no fewer')
    if (!(stage.rejectionNumber >= before.rejectionNumber)) throw refuse('A later stage rejects from no fewer')
  }
  checkAgainstLot(stages, lotSize, refuse)
  const { sampleSize, acceptanceNumber } = last
  if (acceptanceNumber < 0 || acceptanceNumber >= sampleSize)
    throw refuse(`The last acceptance number is from 0 to ${sampleSize - 1}`)
  return { kind, sampleSize, acceptanceNumber, stages }
}

/** The engine names the stage and the number that is out of range. */
function checkAgainstLot(stages: readonly Stage[], lotSize: number, refuse: (sentence: string) => Refusal): void {
  try {
    checkStages({ stages }, lotSize)
  } catch (error) {
    if (error instanceof RangeError) throw refuse(`This is no plan for ${lotSize} cords: ${error.message}`)
    throw error
  }
}
