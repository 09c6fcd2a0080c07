// What samples predicted of the rest, against what testing every cord showed.
import { describe, expect, test } from 'vitest'
import { coverageOf } from '../../app/history/coverage.ts'
import { runHere } from '../../app/kit/task.ts'
import { closeLot } from '../../app/lots/acts/close.ts'
import { decideLot } from '../../app/lots/acts/decide.ts'
import { factsOf } from '../../app/lots/record/lot.ts'
import { predictionOf } from '../../app/lots/rules/prediction.ts'
import { testApp } from '../support/app.ts'
import { freshDatabase } from '../support/database.ts'
import { drawnLot, recordAll, signature, testedLot, type Wanted } from '../support/lot.ts'
import { textOf } from '../support/page-text.ts'
import { threePeople } from '../support/people.ts'

const { db, owner } = await freshDatabase()
const three = await threePeople(db)
const { appAs } = testApp(db)

/** What a sample of n of N predicts with d found, when all D are known afterwards; its plan would have taken any number. */
const predict = ({ N, n, d, D }: { N: number; n: number; d: number; D: number }) =>
  predictionOf(
    { lotSize: N, sampleSize: n, stages: [{ sampleSize: n, acceptanceNumber: n, rejectionNumber: n + 1 }] },
    { recorded: n, found: d },
    D,
  )

/** Binomial coefficient in whole numbers, for checks apart from the engine. */
const choose = (n: number, k: number): number => (k < 0 || k > n ? 0 : k === 0 ? 1 : (choose(n - 1, k - 1) * n) / k)
/** Chance that a sample of n of N holds exactly d of the D. */
const exactly = (d: number, { N, D, n }: { N: number; D: number; n: number }) =>
  (choose(D, d) * choose(N - D, n - d)) / choose(N, n)

describe('the interval predicted for the rest', () => {
  test.each([
    { N: 24, n: 6 },
    { N: 30, n: 3 },
    { N: 41, n: 12 },
  ])('holds in at least 90 of 100 draws, whatever a lot of $N holds, after a sample of $n', ({ N, n }) => {
    for (let D = 0; D <= N; D++) {
      let covered = 0
      for (let d = Math.max(0, n - (N - D)); d <= Math.min(n, D); d++)
        if (predict({ N, n, d, D }).covered) covered += exactly(d, { N, D, n })
      expect(covered, `D = ${D}`).toBeGreaterThanOrEqual(0.9 - 1e-12)
    }
  })

  test('is what inverting the hypergeometric law gives, 95 % on each side', () => {
    const { lower, upper, remainder, observed } = predict({ N: 24, n: 6, d: 2, D: 5 })
    expect([remainder, observed]).toEqual([18, 3])
    const atMost = (D: number) => [0, 1, 2].reduce((sum, d) => sum + exactly(d, { N: 24, D, n: 6 }), 0)
    const atLeast = (D: number) => 1 - [0, 1].reduce((sum, d) => sum + exactly(d, { N: 24, D, n: 6 }), 0)
    expect(atMost(2 + upper)).toBeGreaterThan(0.05)
    expect(upper === remainder || atMost(2 + upper + 1) <= 0.05).toBe(true)
    expect(atLeast(2 + lower)).toBeGreaterThan(0.05)
    expect(lower === 0 || atLeast(2 + lower - 1) <= 0.05).toBe(true)
  })
})

async function screened(found: number, rest: number, wanted: Wanted = {}): Promise<number> {
  const lotId = await testedLot(db, three, found, wanted)
  await decideLot(db, three.manager, lotId, { ...(await signature(db, lotId)), outcome: 'screened' })
  await recordAll(db, three, lotId, rest)
  return lotId
}

describe('how well samples predicted', () => {
  test('is nothing before a lot is tested to the last cord', async () => {
    expect(await coverageOf(db, runHere)).toMatchObject({ leftOut: 0, byPlan: { lots: [], share: undefined } })
    const page = await (await appAs(three.manager)).get('/lots/calibration')
    expect(textOf(await page.text())).toContain('No lot was tested to the last cord yet')
  })

  test('holds the sample that was decided on against the rest, on the lot’s page and over all lots', async () => {
    const lotId = await drawnLot(db, three)
    await recordAll(db, three, lotId, 2)
    expect((await factsOf(db, lotId)).prediction).toBeUndefined()
    await decideLot(db, three.manager, lotId, { ...(await signature(db, lotId)), outcome: 'screened' })
    expect((await factsOf(db, lotId)).prediction).toBeUndefined()
    await recordAll(db, three, lotId, 3)
    const predicted = predict({ N: 24, n: 6, d: 2, D: 5 })
    expect((await factsOf(db, lotId)).prediction).toEqual(predicted)
    await closeLot(db, three.manager, lotId, { ...(await signature(db, lotId)), outcome: 'sorted' })
    const { afterScreening } = await coverageOf(db, runHere)
    expect(afterScreening.lots).toMatchObject([{ lotId, size: 24, ...predicted }])
    expect(afterScreening).toMatchObject({ covered: 1, share: { fraction: 1 } })
    const manager = await appAs(three.manager)
    const story = textOf(await (await manager.get(`/lots/${lotId}`)).text())
    expect(story).toContain(
      `From 2 nonconforming of 6 cords tested, ${predicted.lower} to ${predicted.upper} of the other 18 were predicted (90 % interval, exact). 3 were found: inside.`,
    )
    const page = textOf(await (await manager.get('/lots/calibration')).text())
    expect(page).toContain('Of 1 lot tested completely, 1 fell inside the predicted 90 % interval.')
  })

  test('says so where the rest came out otherwise', async () => {
    const lotId = await screened(2, 18)
    expect((await factsOf(db, lotId)).prediction).toMatchObject({ observed: 18, covered: false })
    expect((await coverageOf(db, runHere)).afterScreening).toMatchObject({ covered: 1, share: { fraction: 0.5 } })
    const story = textOf(await (await (await appAs(three.manager)).get(`/lots/${lotId}`)).text())
    expect(story).toContain('18 were found: outside')
  })

  test('takes of a lot tested whole by plan the first tenth drawn as the sample', async () => {
    const plan = { kind: 'every-cord', sampleSize: 24, acceptanceNumber: 24 } as const
    const lotId = await testedLot(db, three, 4, { plan })
    await decideLot(db, three.manager, lotId, { ...(await signature(db, lotId)), outcome: 'accepted' })
    // A tenth of 24 cords, rounded up, is 3; what the first three picks showed, counted in the database apart.
    const [first] = await owner<[{ found: number }]>`
      select count(*) filter (where nonconforming)::int as found from results natural join drawn_cords
      where lot_id = ${lotId} and pick in (1, 2, 3)`
    const { byPlan } = await coverageOf(db, runHere)
    expect(byPlan.lots).toMatchObject([{ lotId, ...predict({ N: 24, n: 3, d: first.found, D: 4 }) }])
  })
})
