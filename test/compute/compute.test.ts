// Who gets an answer, who waits and who is turned away, with threads that finish when the test says so.
import { afterEach, describe, expect, test, vi } from 'vitest'
import { type Compute, openCompute, Unanswered } from '../../app/compute/compute.ts'
import type { Task } from '../../app/kit/task.ts'
import { unansweredWords } from '../../views/words/unanswered.ts'

const task: Task<string, string> = { name: 'echo', work: (text) => text }
const staying = new AbortController().signal

/** `begun`: what the threads are at, in the order in which it began; `finish` ends one. */
function handDriven(most: number): { compute: Compute; begun: string[]; finish(input: string): Promise<void> } {
  const begun: string[] = []
  const ends = new Map<string, () => void>()
  const compute = openCompute({
    most,
    run: (each, input, signal) =>
      new Promise((resolve, reject) => {
        const name = String(input)
        begun.push(name)
        ends.set(name, () => resolve(each.work(input)))
        signal.addEventListener('abort', () => reject(signal.reason))
      }),
    end: async () => {},
  })
  const finish = async (input: string) => {
    ends.get(input)?.()
    await settled()
  }
  return { compute, begun, finish }
}

const settled = () => new Promise<void>((resolve) => process.nextTick(() => setImmediate(resolve)))

describe('a client', () => {
  test('has two questions worked out at once, the third waits, and others pass it by', async () => {
    const { compute, begun, finish } = handDriven(4)
    const answers = ['a1', 'a2', 'a3'].map((text) => compute.run(task, text, { client: 'a', signal: staying }))
    answers.push(compute.run(task, 'b1', { client: 'b', signal: staying }))
    await settled()
    expect(begun).toEqual(['a1', 'a2', 'b1'])
    await finish('a1')
    expect(begun).toEqual(['a1', 'a2', 'b1', 'a3'])
    for (const each of ['a2', 'a3', 'b1']) await finish(each)
    expect(await Promise.all(answers)).toEqual(['a1', 'a2', 'a3', 'b1'])
  })

  test('with six questions on the way is told to wait, and another client is not', async () => {
    const { compute, begun } = handDriven(3)
    for (let n = 1; n <= 6; n++) void compute.run(task, `a${n}`, { client: 'a', signal: staying })
    await expect(compute.run(task, 'a7', { client: 'a', signal: staying })).rejects.toMatchObject({ status: 429 })
    void compute.run(task, 'b1', { client: 'b', signal: staying })
    await settled()
    expect(begun).toEqual(['a1', 'a2', 'b1'])
  })

  test('that goes away ends its question, and makes room for the next', async () => {
    const { compute, begun } = handDriven(1)
    const [first, second] = [new AbortController(), new AbortController()]
    const gone = compute.run(task, 'a', { client: 'a', signal: first.signal })
    const alsoGone = compute.run(task, 'b', { client: 'b', signal: second.signal })
    void compute.run(task, 'c', { client: 'c', signal: staying })
    second.abort()
    await expect(alsoGone).rejects.toBeInstanceOf(Unanswered)
    first.abort()
    await expect(gone).rejects.toBeInstanceOf(Unanswered)
    await settled()
    expect(begun).toEqual(['a', 'c'])
  })

  test('that has gone already is not worked for', async () => {
    const { compute, begun } = handDriven(1)
    await expect(compute.run(task, 'a', { client: 'a', signal: AbortSignal.abort() })).rejects.toBeInstanceOf(
      Unanswered,
    )
    expect(begun).toEqual([])
  })
})

test('a queue of 24 is full', async () => {
  const { compute } = handDriven(1)
  const ask = (n: number) => compute.run(task, `${n}`, { client: `client ${n}`, signal: staying })
  for (let n = 0; n <= 24; n++) void ask(n)
  await expect(ask(25)).rejects.toMatchObject({ status: 503, why: 'many-questions' })
  expect(unansweredWords['many-questions']).toContain('Too many questions')
})

describe('after five seconds', () => {
  afterEach(() => {
    vi.useRealTimers()
  })

  test('a question that is worked out and one that waits are given up, and the thread is free again', async () => {
    vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout'] })
    const { compute, begun, finish } = handDriven(1)
    const working = compute.run(task, 'a', { client: 'a', signal: staying })
    const waiting = compute.run(task, 'b', { client: 'b', signal: staying })
    const late = Promise.allSettled([working, waiting])
    vi.advanceTimersByTime(4999)
    await settled()
    expect(begun).toEqual(['a'])
    vi.advanceTimersByTime(1)
    for (const each of await late)
      expect(each).toMatchObject({
        status: 'rejected',
        reason: { status: 503, why: 'late' },
      })
    expect(unansweredWords.late).toContain('five seconds')
    const next = compute.run(task, 'c', { client: 'c', signal: staying })
    await settled()
    await finish('c')
    expect(await next).toBe('c')
  })
})

test('what a task itself throws is handed on', async () => {
  const compute = openCompute({
    most: 1,
    run: async () => {
      throw new RangeError('lotSize must be a whole number')
    },
    end: async () => {},
  })
  await expect(compute.run(task, 'a', { client: 'a', signal: staying })).rejects.toThrow(RangeError)
})
