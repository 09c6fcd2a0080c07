// What a sample proves, whole or stopped at the rejection number, by enumeration of every sample.
import { describe, expect, test } from 'vitest'
import { boundsAfter, boundsOf, type LotBounds } from '../../../app/lots/rules/bounds.ts'
import { progressOf } from '../../../app/lots/rules/progress.ts'
import type { Stage } from '../../../app/statistics/plans/plan.ts'

/** Binomial coefficient. */
const choose = (n: number, k: number): number => (k < 0 || k > n ? 0 : k === 0 ? 1 : (choose(n - 1, k - 1) * n) / k)

/** Every way to draw so many of the cords 0 to N − 1, each in walking order. */
function* samples(lotSize: number, sampleSize: number, from = 0): Generator<number[]> {
  if (sampleSize === 0) {
    yield []
    return
  }
  for (let first = from; first <= lotSize - sampleSize; first++)
    for (const rest of samples(lotSize, sampleSize - 1, first + 1)) yield [first, ...rest]
}

/** Tests cord after cord in walking order and stops when more than the acceptance number are found. */
function walk(sample: number[], nonconforming: Set<number>, acceptanceNumber: number) {
  let found = 0
  for (const [i, cord] of sample.entries()) {
    if (nonconforming.has(cord)) found++
    if (found > acceptanceNumber) return { recorded: i + 1, found }
  }
  return { recorded: sample.length, found }
}

describe('the proof', () => {
  // Recomputed in exact fractions: C(453, 48) / C(480, 48) = 0.0535 and C(452, 48) / C(480, 48) = 0.0478.
  test('of 48 clean cords of 480 leaves up to 27 of the 432 untested', () => {
    expect(boundsOf({ lotSize: 480, sampleSize: 48, recorded: 48, found: 0 })).toEqual({
      confidence: 0.95,
      lotSize: 480,
      recorded: 48,
      found: 0,
      leftOfSample: 0,
      untested: 432,
      upperInLot: 27,
      lowerInLot: 0,
      upperInUntested: 27,
      expectedInUntested: 0,
    })
  })

  // Recomputed in exact fractions: a lot with 42 shows at most one in 50 with chance 0.0507, one with 43 with 0.0455.
  test('of one found in 50 of 480 leaves up to 42 in the lot, 41 among the rest', () => {
    const proof = boundsOf({ lotSize: 480, sampleSize: 50, recorded: 50, found: 1 })
    expect(proof).toMatchObject({ upperInLot: 42, upperInUntested: 41, untested: 430 })
    expect(proof.expectedInUntested).toBeCloseTo(430 / 50, 12)
  })

  test('of every cord is what was found', () => {
    const proof = boundsOf({ lotSize: 30, sampleSize: 30, recorded: 30, found: 4 })
    expect(proof).toMatchObject({
      upperInLot: 4,
      lowerInLot: 4,
      untested: 0,
      upperInUntested: 0,
      expectedInUntested: 0,
    })
  })

  test('after a stop gives no estimate, and bounds that the finished sample could not exceed', () => {
    const stopped = boundsOf({ lotSize: 200, sampleSize: 40, recorded: 9, found: 2 })
    expect(stopped.expectedInUntested).toBeUndefined()
    for (let found = 2; found <= 2 + 31; found++) {
      const finished = boundsOf({ lotSize: 200, sampleSize: 40, recorded: 40, found })
      expect(stopped.upperInLot, `${found} found in the end`).toBeGreaterThanOrEqual(finished.upperInLot)
      expect(stopped.lowerInLot, `${found} found in the end`).toBeLessThanOrEqual(finished.lowerInLot)
    }
  })

  // Every sample of 5 out of 11 cords, every arrangement of the nonconforming ones in the cartons, every number of them.
  test.each([{ acceptanceNumber: 0 }, { acceptanceNumber: 1 }, { acceptanceNumber: 2 }])(
    'covers in 95 of 100 draws or more though testing stops in walking order, acceptance number $acceptanceNumber',
    ({ acceptanceNumber }) => {
      const lotSize = 11
      const all = [...samples(lotSize, 5)]
      const proofs = new Map<string, LotBounds>()
      const proofFor = (end: { recorded: number; found: number }) => {
        const known = proofs.get(`${end.recorded}/${end.found}`) ?? boundsOf({ lotSize, sampleSize: 5, ...end })
        proofs.set(`${end.recorded}/${end.found}`, known)
        return known
      }
      for (let number = 0; number <= lotSize; number++)
        for (const arrangement of samples(lotSize, number)) {
          const nonconforming = new Set(arrangement)
          let above = 0
          let below = 0
          for (const sample of all) {
            const proof = proofFor(walk(sample, nonconforming, acceptanceNumber))
            if (proof.upperInLot < number) above++
            if (proof.lowerInLot > number) below++
          }
          expect(above / all.length, `upper bound, ${arrangement}`).toBeLessThanOrEqual(0.05)
          expect(below / all.length, `lower bound, ${arrangement}`).toBeLessThanOrEqual(0.05)
        }
    },
  )

  test('must not be that of the recorded cords alone: with bad cartons at the end that would cover 1 time in 2', () => {
    const lotSize = 22
    const nonconforming = new Set([10, 12, 13, 14, 15, 16, 17, 18, 19, 20, 21])
    // Each outcome of a walk, and how many of the equally likely samples lead to it.
    const outcomes = new Map<string, { recorded: number; found: number; samples: number }>()
    for (const sample of samples(lotSize, 11)) {
      const end = walk(sample, nonconforming, 0)
      const before = outcomes.get(`${end.recorded}/${end.found}`)
      outcomes.set(`${end.recorded}/${end.found}`, { ...end, samples: (before?.samples ?? 0) + 1 })
    }
    const share = (covers: (recorded: number, found: number) => boolean) => {
      const all = [...outcomes.values()]
      const covered = all.filter(({ recorded, found }) => covers(recorded, found))
      const sum = (ends: typeof all) => ends.reduce((total, end) => total + end.samples, 0)
      return sum(covered) / sum(all)
    }
    const number = nonconforming.size
    const whole = share(
      (recorded, found) => boundsOf({ lotSize, sampleSize: 11, recorded, found }).upperInLot >= number,
    )
    const alone = share(
      (recorded, found) => boundsOf({ lotSize, sampleSize: recorded, recorded, found }).upperInLot >= number,
    )
    expect(whole).toBeGreaterThanOrEqual(0.95)
    expect(alone).toBeLessThan(0.6)
  })
})

/** Every way to draw the samples of the stages one after the other, each of them in walking order. */
function* stageSamples(cords: number[], sizes: number[]): Generator<number[][]> {
  const [size, ...later] = sizes
  if (size === undefined) {
    yield []
    return
  }
  for (const places of samples(cords.length, size)) {
    const picked = new Set(places)
    const rest = cords.filter((_, at) => !picked.has(at))
    for (const others of stageSamples(rest, later)) yield [places.map((at) => cords[at] ?? -1), ...others]
  }
}

describe('the proof of a plan of several stages', () => {
  const stage = (sampleSize: number, acceptanceNumber: number, rejectionNumber = acceptanceNumber + 1) => ({
    sampleSize,
    acceptanceNumber,
    rejectionNumber,
  })
  const plans = [
    { name: 'two samples', lotSize: 8, stages: [stage(3, 0, 2), stage(6, 1)] },
    { name: 'two samples, rejecting late', lotSize: 8, stages: [stage(2, 0, 2), stage(6, 2)] },
    { name: 'three samples', lotSize: 7, stages: [stage(2, 0, 2), stage(4, 1, 3), stage(5, 2)] },
    { name: 'cord by cord', lotSize: 7, stages: [stage(1, -1, 2), stage(2, -1, 2), stage(3, 0, 2), stage(4, 1)] },
  ]

  /** Records the cords of each sample in walking order until the plan has its verdict; then one stops. */
  function carryOut(stages: (typeof plans)[0]['stages'], drawn: number[][], nonconforming: Set<number>) {
    const counts = stages.map(() => ({ recorded: 0, found: 0 }))
    for (const [at, cords] of drawn.entries())
      for (const cord of cords) {
        const count = counts[at]
        if (!count || progressOf(stages, counts).verdict) break
        count.recorded++
        if (nonconforming.has(cord)) count.found++
      }
    return progressOf(stages, counts)
  }

  // Every draw, every arrangement of the nonconforming cords in the cartons, every number of them.
  test.each(plans)(
    'covers in 95 of 100 draws or more though testing stops in walking order: $name',
    ({ lotSize, stages }) => {
      const sizes = stages.map(({ sampleSize }, at) => sampleSize - (stages[at - 1]?.sampleSize ?? 0))
      const draws = [...stageSamples([...Array(lotSize).keys()], sizes)]
      const proofs = new Map<string, LotBounds>()
      let missed = 0
      for (let number = 0; number <= lotSize; number++)
        for (const arrangement of samples(lotSize, number)) {
          const nonconforming = new Set(arrangement)
          let above = 0
          let below = 0
          for (const drawn of draws) {
            const reached = carryOut(stages, drawn, nonconforming)
            const name = `${reached.stage}/${reached.recorded}/${reached.found}`
            const proof = proofs.get(name) ?? boundsAfter({ lotSize, stages }, reached)
            proofs.set(name, proof)
            if (proof.upperInLot < number) above++
            if (proof.lowerInLot > number) below++
          }
          missed += above + below
          expect(above / draws.length, `upper bound, ${arrangement}`).toBeLessThanOrEqual(0.05)
          expect(below / draws.length, `lower bound, ${arrangement}`).toBeLessThanOrEqual(0.05)
        }
      expect(missed).toBeGreaterThan(0) // the bounds are no wider than every lot
    },
  )

  /** Every end of a plan of two samples, both finished, with its chance in a lot: hypergeometric, in whole numbers. */
  function* endsIn(lotSize: number, number: number, [first, second]: [Stage, Stage]) {
    const ways = (N: number, D: number, n: number, d: number) => (choose(D, d) * choose(N - D, n - d)) / choose(N, n)
    for (let d = 0; d <= Math.min(number, first.sampleSize); d++) {
      const begun = { recorded: first.sampleSize, found: d }
      const chance = ways(lotSize, number, first.sampleSize, d)
      const reached = progressOf([first, second], [begun])
      if (reached.verdict) yield { chance, reached }
      const more = second.sampleSize - first.sampleSize
      for (let e = 0; !reached.verdict && e <= Math.min(number - d, more); e++) {
        const both = progressOf([first, second], [begun, { recorded: more, found: e }])
        yield { chance: chance * ways(lotSize - first.sampleSize, number - d, more, e), reached: both }
      }
    }
  }

  test('must not be that of one sample of the same cords: that covers less than it says, and its rate is none', () => {
    const lotSize = 100
    const stages: [Stage, Stage] = [stage(20, 0, 3), stage(40, 3)]
    const covered = { after: 1, plain: 1 }
    let furthest = 0
    for (let number = 0; number <= lotSize - 40; number++) {
      const sums = { after: 0, plain: 0, rate: 0, untested: 0 }
      for (const { chance, reached } of endsIn(lotSize, number, stages)) {
        const { recorded, found } = reached
        const proof = boundsAfter({ lotSize, stages }, reached)
        const plain = boundsOf({ lotSize, sampleSize: recorded, recorded, found })
        if (proof.upperInLot >= number) sums.after += chance
        if (plain.upperInLot >= number) sums.plain += chance
        expect(proof.expectedInUntested).toBeUndefined()
        sums.rate += chance * (plain.expectedInUntested ?? Number.NaN)
        sums.untested += chance * (number - found)
      }
      covered.after = Math.min(covered.after, sums.after)
      covered.plain = Math.min(covered.plain, sums.plain)
      furthest = Math.max(furthest, Math.abs(sums.rate - sums.untested))
    }
    expect(covered.after).toBeGreaterThanOrEqual(0.95)
    expect(covered.plain).toBeLessThan(0.93)
    expect(furthest).toBeGreaterThan(1)
  })

  // By a correction the plan had ended with the second found, the twelfth cord, though twenty were recorded and three found.
  test('counts every recorded cord as tested, and leaves the rest of the bound among the others', () => {
    const stages: [Stage, Stage] = [stage(20, 0, 2), stage(40, 1)]
    const reached = progressOf(stages, [{ recorded: 12, found: 2 }])
    const proof = boundsAfter({ lotSize: 100, stages }, reached, { recorded: 20, found: 3 })
    expect(proof).toMatchObject({ untested: 80, leftOfSample: 8, upperInUntested: proof.upperInLot - 3 })
    expect(proof.upperInLot).toBeLessThanOrEqual(80 + 3)
  })
})
