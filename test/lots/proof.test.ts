// What a sample proves, whole or stopped at the rejection number, by enumeration of every sample.
import { describe, expect, test } from 'vitest'
import { type Proof, proofOf } from '../../app/lots/decision/proof.ts'

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
    expect(proofOf({ lotSize: 480, sampleSize: 48, recorded: 48, found: 0 })).toEqual({
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
    const proof = proofOf({ lotSize: 480, sampleSize: 50, recorded: 50, found: 1 })
    expect(proof).toMatchObject({ upperInLot: 42, upperInUntested: 41, untested: 430 })
    expect(proof.expectedInUntested).toBeCloseTo(430 / 50, 12)
  })

  test('of every cord is what was found', () => {
    const proof = proofOf({ lotSize: 30, sampleSize: 30, recorded: 30, found: 4 })
    expect(proof).toMatchObject({
      upperInLot: 4,
      lowerInLot: 4,
      untested: 0,
      upperInUntested: 0,
      expectedInUntested: 0,
    })
  })

  test('after a stop gives no estimate, and bounds that the finished sample could not exceed', () => {
    const stopped = proofOf({ lotSize: 200, sampleSize: 40, recorded: 9, found: 2 })
    expect(stopped.expectedInUntested).toBeUndefined()
    for (let found = 2; found <= 2 + 31; found++) {
      const finished = proofOf({ lotSize: 200, sampleSize: 40, recorded: 40, found })
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
      const proofs = new Map<string, Proof>()
      const proofFor = (end: { recorded: number; found: number }) => {
        const known = proofs.get(`${end.recorded}/${end.found}`) ?? proofOf({ lotSize, sampleSize: 5, ...end })
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
    const whole = share((recorded, found) => proofOf({ lotSize, sampleSize: 11, recorded, found }).upperInLot >= number)
    const alone = share(
      (recorded, found) => proofOf({ lotSize, sampleSize: recorded, recorded, found }).upperInLot >= number,
    )
    expect(whole).toBeGreaterThanOrEqual(0.95)
    expect(alone).toBeLessThan(0.6)
  })
})
