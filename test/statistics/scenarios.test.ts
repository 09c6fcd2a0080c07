// Worked situations of incoming inspection with their answers: invented lots, answers computed in base R (phyper, pbinom, qbeta, pt).
import { describe, expect, test } from 'vitest'
import { lowerBoundOfFraction, upperBoundOfFraction } from '../../app/statistics/bounds/fraction.ts'
import { intervalOfFraction } from '../../app/statistics/bounds/interval.ts'
import { upperBoundInLot } from '../../app/statistics/bounds/lot.ts'
import { nothingSeen } from '../../app/statistics/clustering/nothing-seen.ts'
import * as hypergeometric from '../../app/statistics/distributions/hypergeometric.ts'
import { breakEvenFraction } from '../../app/statistics/economics/all-or-none.ts'
import { chanceConforming } from '../../app/statistics/measurement/guard-band.ts'
import { acceptanceOfLot, acceptanceOfProcess, averageSampleSizeOfLot } from '../../app/statistics/plans/measures.ts'
import { singlePlan } from '../../app/statistics/plans/single.ts'
import { fractionBelow } from '../../app/statistics/variables/fraction-below.ts'
import { toleranceFactor } from '../../app/statistics/variables/tolerance.ts'

const accept = (N: number, D: number, n: number, c: number) =>
  hypergeometric.atMost(c, { lotSize: N, nonconforming: D, sampleSize: n })
const bound = (lotSize: number, sampleSize: number, found: number) =>
  upperBoundInLot({ lotSize, sampleSize, found, confidence: 0.95 })
const single = (sampleSize: number, acceptanceNumber: number) => singlePlan({ sampleSize, acceptanceNumber })
/** The standard's own two samples: the first rejects from 4, the second from 5. */
const two = {
  stages: [
    { sampleSize: 80, acceptanceNumber: 1, rejectionNumber: 4 },
    { sampleSize: 160, acceptanceNumber: 4, rejectionNumber: 5 },
  ],
}
const mixed = Array.from({ length: 20 }, (_, carton) => ({ cords: 50, nonconforming: carton < 2 ? 25 : 0 }))
const seenOnce = accept(480, 24, 50, 1)
/** All units tested: 3 % nonconforming of 500, of which the test misses 10 %, while it refuses 1 % of the conforming. */
const flagged = { rightly: 15 * 0.9, wrongly: 485 * 0.01 }
/** 1,000 units of which 40 are nonconforming, 80 tested, 2 allowed, a rejected lot screened; a test 1.30, an escape 85. */
const left = Array.from({ length: 3 }, (_, d) => d).reduce(
  (sum, d) => sum + (40 - d) * hypergeometric.density(d, { lotSize: 1000, nonconforming: 40, sampleSize: 80 }),
  0,
)

describe('worked situations', () => {
  test.each<[string, number, number]>([
    ['one found in 50 of 480: at most', bound(480, 50, 1), 42],
    ['50/1 of 480 accepts 19', accept(480, 19, 50, 1), 0.391833931352],
    ['50/1 of 480 accepts 5', accept(480, 5, 50, 1), 0.913301368882],
    ['a tenth of 1,000 accepts 40', accept(1000, 40, 100, 0), 0.0135201474227],
    ['a tenth of 1,000 accepts 10', accept(1000, 10, 100, 0), 0.346927714792],
    ['a tenth of 1,000 accepts 5', accept(1000, 5, 100, 0), 0.58983218169],
    ['a tenth of 120 accepts 5', accept(120, 5, 12, 0), 0.584900471001],
    ['a tenth of 5,000 accepts 25', accept(5000, 25, 500, 0), 0.0713111462166],
    ['two cartons of 20 half bad: a random 80 sees nothing', accept(1000, 50, 80, 0), 0.0138507132468],
    [
      '… 40 from each of two cartons open no bad one',
      nothingSeen({ cartons: mixed, opened: 2, each: 40 }).noneOpened,
      0.805263157895,
    ],
    [
      '… 16 from each of five open none',
      nothingSeen({ cartons: mixed, opened: 5, each: 16 }).noneOpened,
      0.552631578947,
    ],
    ['… 4 from each of all', nothingSeen({ cartons: mixed, opened: 20, each: 4 }).stratified, 0.00301712410835],
    ['80/1 of 800 accepts 40', accept(800, 40, 80, 1), 0.0752916612588],
    ['80/1 of 800 accepts 8', accept(800, 8, 80, 1), 0.813669794201],
    ['2 found in 80 of 800: at most', bound(800, 80, 2), 59],
    ['+0.3 dB read with u = 0.5 dB conforms', chanceConforming({ margin: 0.3, uncertainty: 0.5 }), 0.72574688225],
    ['none in 32 of 240: at most', bound(240, 32, 0), 20],
    ['six in 32 of 240: at most', bound(240, 32, 6), 78],
    ['normal 80/2 at 1 %', acceptanceOfProcess(single(80, 2), 0.01), 0.953446814264],
    ['normal 80/2 at 3 %', acceptanceOfProcess(single(80, 2), 0.03), 0.568123251641],
    ['tightened 80/1 at 1 %', acceptanceOfProcess(single(80, 1), 0.01), 0.809158133977],
    ['tightened 80/1 at 3 %', acceptanceOfProcess(single(80, 1), 0.03), 0.303806392594],
    ['double 80/80 of 2,000 accepts 20', acceptanceOfLot(two, { lotSize: 2000, nonconforming: 20 }), 0.982050834526],
    ['… tests on average', averageSampleSizeOfLot(two, { lotSize: 2000, nonconforming: 20 }), 94.5731987644],
    ['double 80/80 accepts 40', acceptanceOfLot(two, { lotSize: 2000, nonconforming: 40 }), 0.806460024836],
    ['… tests on average, 40', averageSampleSizeOfLot(two, { lotSize: 2000, nonconforming: 40 }), 112.641630736],
    ['double 80/80 accepts 80', acceptanceOfLot(two, { lotSize: 2000, nonconforming: 80 }), 0.271672258248],
    ['… tests on average, 80', averageSampleSizeOfLot(two, { lotSize: 2000, nonconforming: 80 }), 115.298673041],
    ['of those flagged really bad', flagged.rightly / (flagged.rightly + flagged.wrongly), 0.735694822888],
    ['3 in 480, at most', upperBoundOfFraction({ sampleSize: 480, found: 3, confidence: 0.95 }), 0.0160736199034],
    ['0 in 20, at most', upperBoundOfFraction({ sampleSize: 20, found: 0, confidence: 0.95 }), 0.139108340668],
    ['5 % passes 50/1 once', seenOnce, 0.262902100383],
    ['… within three tries', 1 - (1 - seenOnce) ** 3, 0.599524897697],
    ['… within five', 1 - (1 - seenOnce) ** 5, 0.782416545145],
    ['k for 95/95 of ten', toleranceFactor({ sampleSize: 10, coverage: 0.95, confidence: 0.95 }), 2.91096341308],
    ['break-even at 1.30 and 85', breakEvenFraction({ test: 1.3, escape: 85 }), 0.0152941176471],
    ['cost of 80/2 on exactly 40 bad', 80 * 1.3 + 85 * left + (1 - accept(1000, 40, 80, 2)) * 920 * 1.3, 2057.255],
    ['13 of 36 find one of two', 1 - accept(36, 2, 13, 0), 0.598412698413],
    ['none in 13 of 36: at most', bound(36, 13, 0), 6],
  ])('%s', (_, ours, answer) => {
    expect(Math.abs(ours / answer - 1)).toBeLessThan(2e-6)
  })

  test('ten margins of mean 4.2 and deviation 1.1 dB against a limit of +1.0 dB: up to 5.01 % below', () => {
    const below = fractionBelow({
      sampleSize: 10,
      mean: 4.2,
      standardDeviation: 1.1,
      limit: 1,
      confidence: 0.95,
    })
    expect(below.upper).toBeCloseTo(0.0501248623544, 9)
  })

  test('322 of 379 and 0 of 120, as a survey of cords found', () => {
    const both = intervalOfFraction('clopper-pearson', { sampleSize: 379, found: 322, confidence: 0.95 })
    expect(both.lower).toBeCloseTo(0.809577401691, 10)
    expect(both.upper).toBeCloseTo(0.88405897008, 10)
    expect(upperBoundOfFraction({ sampleSize: 120, found: 0, confidence: 0.95 })).toBeCloseTo(0.0246554010557, 10)
    expect(lowerBoundOfFraction({ sampleSize: 120, found: 0, confidence: 0.95 })).toBe(0)
  })
})
