// Ten lots of the example and ten made by hand: the recommendation and every cost beside a walk of its own, unit by unit, that shares no code with the engine.
import { describe, expect, test } from 'vitest'
import { type AdviceQuestion, adviceTask, type Requirements } from '../../app/advice/work-out.ts'
import { scenarioItems, scenarioLots } from '../../seed/scenario.ts'

type Stage = { sampleSize: number; acceptanceNumber: number; rejectionNumber: number }
type Fetch = { sampleSize: number; rejectionNumber: number }
/** Chance that the next cord is nonconforming after so many found among so many tested. */
type Next = (found: number, tested: number) => number

/**
 * Cords one by one, in no order: the chances of all that can have been found are carried along. Testing stops at the rejection number of the
 * running stage, and in a series not before the first fetch is complete or has reached its own.
 */
function walk(stages: readonly Stage[], next: Next, owed: Fetch | undefined) {
  const last = stages.at(-1)?.sampleSize ?? 0
  const fetch = owed && owed.sampleSize <= last ? owed : undefined
  const fetched = (tested: number, found: number) =>
    !fetch || tested >= fetch.sampleSize || found >= fetch.rejectionNumber
  const sum = { tests: 0, accepted: 0, rejected: 0, testsOfRejected: 0 }
  /** where accepted lots end: chance by cords tested and found */
  const ends: { chance: number; tested: number; found: number }[] = []
  let open = new Map([['0 running', 1]])
  for (let tested = 0; open.size > 0; tested++) {
    const after = new Map<string, number>()
    for (const [state, chance] of open) {
      const [number = '', was = ''] = state.split(' ')
      const found = Number(number)
      const verdict = was === 'running' ? verdictAt(stages, tested, found) : was
      if (verdict !== 'running' && fetched(tested, found)) {
        sum.tests += chance * tested
        if (verdict === 'rejected') {
          sum.rejected += chance
          sum.testsOfRejected += chance * tested
        } else {
          sum.accepted += chance
          ends.push({ chance, tested, found })
        }
        continue
      }
      const bad = next(found, tested)
      const add = (key: string, part: number) => part > 0 && after.set(key, (after.get(key) ?? 0) + part)
      add(`${found + 1} ${verdict}`, chance * bad)
      add(`${found} ${verdict}`, chance * (1 - bad))
    }
    open = after
  }
  return { ...sum, ends }
}

function verdictAt(stages: readonly Stage[], tested: number, found: number): 'running' | 'accepted' | 'rejected' {
  for (const [at, { sampleSize, acceptanceNumber, rejectionNumber }] of stages.entries()) {
    if (tested < (stages[at - 1]?.sampleSize ?? 0)) return 'running'
    if (tested <= sampleSize && found >= rejectionNumber) return 'rejected'
    if (tested < sampleSize) return 'running'
    if (tested === sampleSize && found <= acceptanceNumber) return 'accepted'
  }
  return 'accepted'
}

/** Under a beta belief the next cord follows Pólya's urn, and so do those that nobody tests. */
function costOf(
  stages: readonly Stage[],
  question: AdviceQuestion,
  belief: { a: number; b: number },
  owed?: Fetch,
): number {
  const { size, terms, requirements } = question
  const urn: Next = (found, tested) => (belief.a + found) / (belief.a + belief.b + tested)
  const { tests, rejected, testsOfRejected, ends } = walk(stages, urn, owed)
  const escaped = ends.reduce(
    (sum, { chance, tested, found }) => sum + chance * (size - tested) * urn(found, tested),
    0,
  )
  const screened = requirements.afterRejection === 'screen'
  const allTests = screened ? tests - testsOfRejected + rejected * size : tests
  return (
    terms.costTestCents * allTests + terms.costEscapeCents * escaped + (screened ? 0 : terms.costReturnCents * rejected)
  )
}

/** A lot with exactly too many. */
function slipsThrough(stages: readonly Stage[], { size, terms }: AdviceQuestion): number {
  return walk(stages, (found, tested) => (terms.tooMany - found) / (size - tested), undefined).accepted
}

type Belief = NonNullable<Requirements['belief']> & { worth: number }
const asked = (belief: Belief, more: Partial<Requirements> = {}): Requirements => ({
  ...{ good: 1, goodRisk: 0.05, share: 0.1, own: { sampleSize: 50, acceptanceNumber: 1 }, afterRejection: 'return' },
  ...more,
  belief,
})

const ofExample: AdviceQuestion[] = scenarioLots.slice(12, 22).map(({ item, size }, at) => {
  const { tooMany, acceptanceQualityLimit, groupSize, ...terms } = scenarioItems[item]
  return {
    size,
    terms: { ...terms, tooMany: tooMany.endsWith('%') ? Math.ceil((size * 15) / 1000) : Number(tooMany) },
    requirements: asked(
      { percent: 0.2 + 0.4 * at, worth: 40 + 60 * at },
      { afterRejection: at % 3 === 2 ? 'screen' : 'return' },
    ),
    groupSize,
    critical: false,
    inSeries: true,
    tightened: undefined,
    before: undefined,
    standard:
      acceptanceQualityLimit === null ? undefined : { acceptanceQualityLimit, level: 'II', inspection: 'normal' },
    finished: [],
  }
})

const byHand: AdviceQuestion[] = [
  { size: 60, tooMany: 3, catchOf100: '95', percent: 1, worth: 100 },
  { size: 90, tooMany: 2, catchOf100: '90', percent: 4, worth: 25 },
  { size: 120, tooMany: 6, catchOf100: '95', percent: 0.5, worth: 400 },
  { size: 150, tooMany: 9, catchOf100: '80', percent: 8, worth: 30 },
  { size: 200, tooMany: 10, catchOf100: '97.5', percent: 2, worth: 60 },
  { size: 240, tooMany: 12, catchOf100: '90', percent: 0.1, worth: 900 },
  { size: 300, tooMany: 6, catchOf100: '95', percent: 3, worth: 10 },
  { size: 360, tooMany: 18, catchOf100: '95', percent: 1.5, worth: 120 },
  { size: 420, tooMany: 21, catchOf100: '99', percent: 6, worth: 80 },
  { size: 480, tooMany: 24, catchOf100: '95', percent: 2.5, worth: 200 },
].map(({ size, tooMany, catchOf100, percent, worth }, at) => ({
  size,
  terms: {
    tooMany,
    catchOf100,
    costTestCents: 130 + 10 * at,
    costEscapeCents: 8500 - 500 * at,
    costReturnCents: 20_000 + 2_000 * at,
  },
  requirements: asked({ percent, worth }, { afterRejection: at % 2 === 0 ? 'return' : 'screen', own: undefined }),
  groupSize: 30,
  critical: false,
  inSeries: true,
  tightened: undefined,
  before: undefined,
  standard: at % 2 === 1 ? { acceptanceQualityLimit: '1.0', level: 'II', inspection: 'normal' } : undefined,
  finished: [],
}))

describe.each([
  ['of the example', ofExample],
  ['made by hand', byHand],
] as const)('ten lots %s', (_, questions) => {
  test.each(questions.map((question) => ({ size: question.size, tooMany: question.terms.tooMany, question })))(
    '$size cords, $tooMany too many',
    ({ question }) => {
      const worked = adviceTask.work(question)
      if (worked.kind !== 'priced') throw new Error('a belief was typed')
      const { belief } = question.requirements
      const [share, worth] = [(belief?.percent ?? 0) / 100, belief?.worth ?? 0]
      const standard = worked.alternatives.find(({ kind }) => kind === 'standard')?.plan.stages[0]
      const risk = (100 - Number(question.terms.catchOf100)) / 100
      const own = worked.alternatives.map(({ kind, plan }) => {
        if (kind === 'every-cord') return { kind, cents: question.size * question.terms.costTestCents, protects: true }
        const cents = costOf(plan.stages, question, { a: share * worth, b: (1 - share) * worth }, standard)
        return { kind, cents, protects: slipsThrough(plan.stages, question) <= risk * (1 + 1e-12) }
      })
      for (const [at, { cents, protects }] of own.entries()) {
        expect(worked.alternatives[at]?.cost.total).toBeCloseTo(cents, 5)
        expect(worked.alternatives[at]?.protects).toBe(protects)
      }
      const least = own
        .filter(({ protects }) => protects)
        .reduce((best, way) => (way.cents < best.cents - 1e-6 ? way : best))
      expect(worked.recommendation.chosen.kind).toBe(least.kind)
    },
  )
})
