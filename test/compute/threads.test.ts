// The worker threads themselves, compiled as they run in the service: the same answers as here, and an end when they are told.
import { existsSync, readFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { pathToFileURL } from 'node:url'
import { afterAll, describe, expect, test } from 'vitest'
import { type AdviceQuestion, adviceTask } from '../../app/advice/work-out.ts'
import type { ProofQuestion } from '../../app/advisor/proof-question.ts'
import { proveTask } from '../../app/advisor/tasks.ts'
import type { Threads } from '../../app/compute/compute.ts'
import { tasks } from '../../app/compute/tasks.ts'
import { coverageTask } from '../../app/history/coverage-sums.ts'
import { sheetTask } from '../../app/history/replay/sheet.ts'
import type { SeriesFacts } from '../../app/history/series/series.ts'
import { signalTask } from '../../app/history/signal-sums.ts'
import { summaryTask } from '../../app/history/summary.ts'
import { pastTask } from '../../app/history/supplier-page-sums.ts'
import { projectRoot } from '../../app/kit/root.ts'
import type { Task } from '../../app/kit/task.ts'
import { weakPlansTask } from '../../app/lots/rules/weak-plans.ts'
import { lotOf } from '../support/counted-lot.ts'
import { importsIn } from '../support/house.ts'
import { inspectedLot } from '../support/inspected-lot.ts'
import { compiled } from '../support/service.ts'

const built = pathToFileURL(join(dirname(compiled()), 'compute/threads.js')).href
const { openThreads }: { openThreads: (most: number) => Threads } = await import(built)
const threads = openThreads(2)
afterAll(() => threads.end())

const staying = new AbortController().signal
const proof: ProofQuestion = {
  lotSize: 480,
  tested: 50,
  found: 0,
  confidence: 0.95,
  claim: 5,
  taken: { kind: 'fixed' },
}
const question: AdviceQuestion = {
  size: 10_000,
  terms: {
    tooMany: 100,
    catchOf100: '90',
    costTestCents: 160,
    costEscapeCents: 9500,
    costReturnCents: 32_000,
  },
  requirements: {
    good: 50,
    goodRisk: 0.05,
    share: 0.1,
    own: undefined,
    afterRejection: 'return',
    belief: { percent: 1, worth: 50 },
  },
  groupSize: 30,
  critical: false,
  inSeries: true,
  tightened: undefined,
  before: undefined,
  standard: undefined,
  finished: [],
}

describe('a worker thread', () => {
  test('answers as this thread does, and keeps what is the same thing the same', async () => {
    const there = await threads.run(adviceTask, question, staying)
    expect(there).toEqual(adviceTask.work(question))
    expect(there.alternatives[0]).toBe(there.recommendation.chosen)
  })

  test('ends in the middle of its work when nobody wants it any more; the next question is answered', async () => {
    const gone = new AbortController()
    const given = threads.run(adviceTask, question, gone.signal)
    setTimeout(() => gone.abort(), 5)
    await expect(given).rejects.toThrow('abort')
    expect(await threads.run(proveTask, proof, staying)).toEqual(proveTask.work(proof))
  })

  test('hands on what a task throws', async () => {
    const wrong = threads.run(proveTask, { ...proof, lotSize: -1 }, staying)
    await expect(wrong).rejects.toThrow('lotSize')
  })
})

describe('of a history', () => {
  const counted = Array.from({ length: 40 }, (_, at) => lotOf(at + 1, 200, at % 7))
  const inspected = counted.map(({ lotId }) => inspectedLot(lotId, 0))
  const alike = counted.slice(0, 7).map(({ size, all, tooMany, costTestCents, costEscapeCents }) => ({
    ...{ lots: 1, size, found: all.found, tooMany, byPlan: true, costTestCents, costEscapeCents },
    ...{ costReturnCents: 32_000, afterRejection: 'return' as const, catchOf100: '95' },
  }))
  const spools = { spools: 0, cords: 0, correlation: undefined }
  const sampled = [{ id: 1, name: 'Alder', lots: 40, sampleSize: 8000, found: 115 }]
  const supplier = { id: 1, name: 'Alder' }
  const stages = [
    { sampleSize: 50, acceptanceNumber: 0, rejectionNumber: 2 },
    { sampleSize: 100, acceptanceNumber: 1, rejectionNumber: 2 },
  ]
  const known = { lotId: 1, item: 'Grey cord', size: 480, stages, count: { recorded: 50, found: 0 }, foundInAll: 3 }
  const limits = { acceptanceQualityLimit: '1.0', level: 'II' } as const
  const notes = [{ kind: 'reduced-wanted', reason: 'steady', at: new Date(0) }] as const
  const item = {
    id: 1,
    name: 'Grey cord',
    critical: false,
    inSeries: true,
    tightened: undefined,
    before: undefined,
    tooMany: '1%',
    catchOf100: '95',
  }
  const series: SeriesFacts[] = [
    { item: { ...item, acceptanceQualityLimit: '1.0', inspectionLevel: 'II' }, inspected, waiting: [], written: [] },
  ]
  const plan = { lotId: 1, supplier: 'Alder', lotSize: 480, stages, tooMany: 5, catchOf100: '95' }
  const staysSame = async <In, Out>(task: Task<In, Out>, input: In) => {
    const here = task.work(input)
    expect(await threads.run(task, input, staying)).toEqual(here)
    return here
  }

  test.each<[string, () => Promise<unknown>, object]>([
    [
      'a supplier’s past',
      () => staysSame(pastTask, { supplier, counted, sampled, open: 2, series }),
      { series: [{ trend: { base: { lots: 2 } } }] },
    ],
    ['a supplier’s standing', () => staysSame(summaryTask, { supplier, counted, open: 1 }), { open: 1 }],
    [
      'a replayed percentage',
      () => staysSame(sheetTask, { known: alike, spools, percent: '10', allowed: 0 }),
      { byPlan: { lots: 7 }, trial: { tests: 140 } },
    ],
    [
      'the coverage',
      () => staysSame(coverageTask, { afterScreening: [known], byPlan: [] }),
      { afterScreening: { covered: 1 }, byPlan: { lots: [], share: undefined } },
    ],
    [
      'the signals of series',
      () =>
        staysSame(signalTask, {
          series: [
            {
              supplier,
              item: { id: 1, name: 'Grey cord' },
              lots: counted,
              inspected,
              notes: [...notes],
              terms: limits,
            },
          ],
          sampled,
        }),
      [{ point: { lotId: 40, found: 4 }, strict: undefined, notKnown: undefined }],
    ],
    ['weak plans', () => staysSame(weakPlansTask, [plan]), [{ lotId: 1, catchOf100: '95' }]],
  ])('%s is the same from a thread', async (_, ask, has) => {
    expect(await ask()).toMatchObject(has)
  })
})

test('every task has a name of its own', () => {
  expect(tasks.size).toBe(11)
})

/** Every file that a file brings with it when it runs. */
function bringsAlong(path: string, seen = new Set<string>()): Set<string> {
  if (seen.has(path)) return seen
  seen.add(path)
  for (const { from, typesOnly } of importsIn(readFileSync(join(projectRoot, path), 'utf8'))) {
    if (typesOnly) continue
    if (from.startsWith('.')) bringsAlong(join(dirname(path), from), seen)
    else seen.add(from)
  }
  return seen
}

test('a worker brings no database, no server and no page with it', () => {
  const all = [...bringsAlong('app/compute/worker.ts')]
  expect(all.filter((each) => existsSync(join(projectRoot, each))).length).toBeGreaterThan(50)
  expect(
    all.filter((each) => /^(db|views|app\/(web|people|audit))\/|drizzle|postgres|hono|piscina/.test(each)),
  ).toEqual([])
})
