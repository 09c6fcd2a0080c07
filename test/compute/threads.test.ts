// The worker threads themselves, compiled as they run in the service: the same answers as here, and an end when they are told.
import { existsSync, readFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { pathToFileURL } from 'node:url'
import { afterAll, describe, expect, test } from 'vitest'
import { type AdviceQuestion, adviceTask } from '../../app/advice/work-out.ts'
import { proveTask } from '../../app/advisor/tasks.ts'
import type { Threads } from '../../app/compute/compute.ts'
import { tasks } from '../../app/compute/tasks.ts'
import { projectRoot } from '../../db/root.ts'
import { importsIn } from '../support/house.ts'
import { compiled } from '../support/service.ts'

const built = pathToFileURL(join(dirname(compiled()), 'compute/threads.js')).href
const { openThreads }: { openThreads: () => Threads } = await import(built)
const threads = openThreads()
afterAll(() => threads.end())

const staying = new AbortController().signal
const question: AdviceQuestion = {
  size: 10_000,
  terms: {
    tooMany: 100,
    catchOf100: '90',
    costTestCents: 160,
    costEscapeCents: 9500,
    costReturnCents: 32_000,
  },
  wish: { good: 50, goodRisk: 0.05, share: 0.1, afterRejection: 'return', belief: undefined },
  critical: false,
  standard: undefined,
  own: [{ sampleSize: 50, found: 1 }],
  others: [],
}

describe('a worker thread', () => {
  test('answers as this thread does, and keeps what is the same thing the same', async () => {
    const there = await threads.run(adviceTask, question, staying)
    expect(there).toEqual(adviceTask.work(question))
    expect(there.ways[0]).toBe(there.recommendation.chosen)
  })

  test('ends in the middle of its work when nobody wants it any more; the next question is answered', async () => {
    const gone = new AbortController()
    const given = threads.run(adviceTask, question, gone.signal)
    setTimeout(() => gone.abort(), 5)
    await expect(given).rejects.toThrow('abort')
    const proof = { lotSize: 480, tested: 50, found: 0, confidence: 0.95, claim: 5 }
    expect(await threads.run(proveTask, proof, staying)).toEqual(proveTask.work(proof))
  })

  test('hands on what a task throws', async () => {
    const wrong = threads.run(proveTask, { lotSize: -1, tested: 50, found: 0, confidence: 0.95, claim: 5 }, staying)
    await expect(wrong).rejects.toThrow('lotSize')
  })
})

test('every task has a name of its own', () => {
  expect(tasks.size).toBe(5)
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
    all.filter((each) => /^(db|views|app\/(http|ops|people|audit))\/|drizzle|postgres|hono|piscina/.test(each)),
  ).toEqual([])
})
