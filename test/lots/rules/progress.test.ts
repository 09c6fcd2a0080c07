// The plan's word on a lot, stage by stage, against the definition of a plan and against every order of small lots.
import { describe, expect, test } from 'vitest'
import { type PlanProgress, progressOf, terminalStage } from '../../../app/lots/rules/progress.ts'
import type { Stage } from '../../../app/statistics/plans/plan.ts'
import { byOrders, lotOf } from '../../statistics/plans/orders.ts'

const stage = (sampleSize: number, acceptanceNumber: number, rejectionNumber = acceptanceNumber + 1): Stage => ({
  sampleSize,
  acceptanceNumber,
  rejectionNumber,
})
const single = [stage(50, 1)]
const zero = [stage(48, 0)]
const every = [stage(20, 20)]
const double = [stage(20, 0, 3), stage(50, 2)]
const oneByOne = [stage(1, -1, 2), stage(2, -1, 2), stage(3, 0, 2), stage(4, 0)]

describe('the verdict', () => {
  test.each([
    { stages: single, counts: [[0, 0]], says: undefined, at: 1, left: 50 },
    { stages: single, counts: [[49, 1]], says: undefined, at: 1, left: 1 },
    { stages: single, counts: [[50, 1]], says: 'accept', at: 1, left: 0 },
    { stages: single, counts: [[12, 2]], says: 'reject', at: 1, left: 38 },
    { stages: single, counts: [[50, 2]], says: 'reject', at: 1, left: 0 },
    { stages: zero, counts: [[1, 1]], says: 'reject', at: 1, left: 47 },
    { stages: zero, counts: [[48, 0]], says: 'accept', at: 1, left: 0 },
    { stages: every, counts: [[19, 19]], says: undefined, at: 1, left: 1 },
    { stages: every, counts: [[20, 20]], says: 'accept', at: 1, left: 0 },
    { stages: double, counts: [[19, 0]], says: undefined, at: 1, left: 1 },
    { stages: double, counts: [[20, 0]], says: 'accept', at: 1, left: 0 },
    { stages: double, counts: [[9, 3]], says: 'reject', at: 1, left: 11 },
    { stages: double, counts: [[20, 1]], says: undefined, at: 2, left: 30 },
    {
      stages: double,
      counts: [
        [20, 1],
        [7, 2],
      ],
      says: 'reject',
      at: 2,
      left: 23,
    },
    {
      stages: double,
      counts: [
        [20, 1],
        [30, 1],
      ],
      says: 'accept',
      at: 2,
      left: 0,
    },
    {
      stages: double,
      counts: [
        [20, 2],
        [30, 1],
      ],
      says: 'reject',
      at: 2,
      left: 0,
    },
    // A correction may let the first stage decide after the second was begun: what came later has no say then.
    {
      stages: double,
      counts: [
        [20, 0],
        [30, 9],
      ],
      says: 'accept',
      at: 1,
      left: 0,
    },
    {
      stages: double,
      counts: [
        [19, 0],
        [30, 9],
      ],
      says: undefined,
      at: 1,
      left: 1,
    },
    {
      stages: oneByOne,
      counts: [
        [1, 0],
        [1, 0],
      ],
      says: undefined,
      at: 3,
      left: 1,
    },
    {
      stages: oneByOne,
      counts: [
        [1, 1],
        [1, 1],
      ],
      says: 'reject',
      at: 2,
      left: 0,
    },
    {
      stages: oneByOne,
      counts: [
        [1, 0],
        [1, 0],
        [1, 0],
      ],
      says: 'accept',
      at: 3,
      left: 0,
    },
    // The last rejection number is below the ones before: one found is too many as soon as only the last stage is left.
    {
      stages: oneByOne,
      counts: [
        [1, 0],
        [1, 1],
        [1, 0],
      ],
      says: 'reject',
      at: 4,
      left: 1,
    },
  ] as const)(
    '$stages after $counts: $says at stage $at (definitions of single, double and sequential plans, ISO 3534-2)',
    ({ stages, counts, says, at, left }) => {
      const reached = progressOf(
        stages,
        counts.map(([recorded, found]) => ({ recorded, found })),
      )
      expect(reached).toMatchObject({ verdict: says, stage: at, left })
      if (reached.verdict) expect(terminalStage(stages, reached)).toEqual(reached)
    },
  )
})

describe('over every order in which the cords of a lot may be drawn', () => {
  /** Records cord after cord until there is a verdict, and no cord of a stage before the one ahead of it is done. */
  function carryOut(stages: readonly Stage[], nonconforming: readonly boolean[]): PlanProgress {
    const counts: { recorded: number; found: number }[] = []
    let reached = progressOf(stages, counts)
    for (let pick = 0; reached.verdict === undefined; pick++) {
      const at = stages.findIndex(({ sampleSize }) => pick < sampleSize)
      const { recorded, found } = counts[at] ?? { recorded: 0, found: 0 }
      counts[at] = { recorded: recorded + 1, found: found + (nonconforming[pick] ? 1 : 0) }
      reached = progressOf(stages, counts)
    }
    return reached
  }

  /** Every order of a lot's conforming and nonconforming cords, each as likely as any other. */
  function orders(lotSize: number, nonconforming: number): boolean[][] {
    if (lotSize === 0) return [[]]
    const next = (is: boolean, left: number) => orders(lotSize - 1, left).map((rest) => [is, ...rest])
    return [
      ...(nonconforming < lotSize ? next(false, nonconforming) : []),
      ...(nonconforming > 0 ? next(true, nonconforming - 1) : []),
    ]
  }

  // The yardstick counts orders unit by unit in whole numbers by the definition of a plan (test/statistics/plans/orders.ts).
  test.each([
    { name: 'one sample', stages: [stage(4, 1)] },
    { name: 'two samples', stages: [stage(3, 0, 2), stage(6, 1)] },
    { name: 'two samples, the first cannot accept', stages: [stage(2, -1, 2), stage(7, 2)] },
    { name: 'three samples', stages: [stage(2, 0, 2), stage(5, 1, 3), stage(8, 3)] },
    { name: 'cord by cord', stages: [stage(1, -1, 2), stage(2, -1, 2), stage(3, 0, 2), stage(4, 0, 3), stage(5, 1)] },
    { name: 'cord by cord, ending lower', stages: oneByOne },
  ])('$name accepts as often as the plan does', ({ stages }) => {
    const lotSize = 10
    for (let nonconforming = 0; nonconforming <= lotSize; nonconforming++) {
      const all = orders(lotSize, nonconforming)
      const accepted = all.filter((order) => carryOut(stages, order).verdict === 'accept').length
      const { acceptance } = byOrders(stages, lotOf(lotSize, nonconforming))
      expect(accepted / all.length, `${nonconforming} of ${lotSize}`).toBeCloseTo(acceptance, 12)
      if (nonconforming === 2) expect(accepted).toBeGreaterThan(0) // the walk does both
    }
  })
})
