// The gate before slow work: how many run, how many wait, and who is sent away. Counted, not timed.
import { describe, expect, test, vi } from 'vitest'
import { gate } from '../../../app/people/passwords/gate.ts'
import { signedIn, stranger } from '../../../app/people/passwords/password.ts'

/** Work that ends when it is told to. */
function works() {
  const ends: (() => void)[] = []
  let most = 0
  let running = 0
  const work = async () => {
    running += 1
    most = Math.max(most, running)
    await new Promise<void>((end) => ends.push(end))
    running -= 1
    return 'done'
  }
  return { work, most: () => most, begun: () => ends.length, endNext: () => ends.shift()?.() }
}

const settled = () => new Promise<void>((resolve) => setImmediate(resolve))

describe('the gate', () => {
  test('runs two, lets twenty wait and sends the others away with a time to come back', async () => {
    const enter = gate({ atOnce: 2, waiting: 20, ofOne: 20, ofStrangers: 20, rest: 0 })
    const { work, most, begun, endNext } = works()
    const asked = Array.from({ length: 30 }, (_, n) =>
      enter(stranger(`asker ${n}`), work).catch((error: Error) => error),
    )
    await settled()
    expect(begun()).toBe(2)
    for (let n = 0; n < 30; n++) {
      endNext()
      await settled()
    }
    const answers = await Promise.all(asked)
    expect(answers.filter((answer) => answer === 'done')).toHaveLength(22)
    expect(answers.filter((answer) => answer instanceof Error)).toHaveLength(8)
    expect(answers.at(-1)).toMatchObject({ kind: 'wait', seconds: 2 })
    expect(most()).toBe(2)
  })

  test('lets a crowd from one place take half of the places to wait, and leaves the others to everybody else', async () => {
    const enter = gate({ atOnce: 2, waiting: 20, ofOne: 10, ofStrangers: 20, rest: 0 })
    const { work, endNext } = works()
    const crowd = Array.from({ length: 50 }, () => enter(stranger('crowd'), work).catch(() => 'away'))
    const other = enter(stranger('somebody else'), work)
    for (let n = 0; n < 13; n++) {
      await settled()
      endNext()
    }
    expect(await other).toBe('done')
    expect((await Promise.all(crowd)).filter((answer) => answer === 'done')).toHaveLength(12)
  })

  test('keeps places for those who are signed in, and lets them enter before any stranger', async () => {
    const enter = gate({ atOnce: 1, waiting: 4, ofOne: 4, ofStrangers: 2, rest: 0 })
    const entered: string[] = []
    const { work, endNext } = works()
    const come = (name: string, asker: ReturnType<typeof stranger>) =>
      enter(asker, () => {
        entered.push(name)
        return work()
      }).catch(() => 'away')
    const strangers = [1, 2, 3, 4].map((n) => come(`stranger ${n}`, stranger(`network ${n}`)))
    const people = [1, 2, 3].map((n) => come(`person ${n}`, signedIn(n)))
    for (let n = 0; n < 5; n++) {
      await settled()
      endNext()
    }
    expect(await Promise.all(strangers)).toEqual(['done', 'done', 'done', 'away'])
    expect(await Promise.all(people)).toEqual(['done', 'done', 'away'])
    expect(entered).toEqual(['stranger 1', 'person 1', 'person 2', 'stranger 2', 'stranger 3'])
  })

  test('lets a place rest before the next stranger, and never before somebody who is signed in', async () => {
    vi.useFakeTimers({ toFake: ['setTimeout'] })
    const enter = gate({ atOnce: 1, waiting: 4, ofOne: 4, ofStrangers: 4, rest: 25 })
    const { work, begun, endNext } = works()
    const all = [stranger('a'), stranger('b'), stranger('c')].map((asker) => enter(asker, work))
    await settled()
    endNext()
    await settled()
    expect(begun()).toBe(0)
    vi.advanceTimersByTime(25)
    await settled()
    expect(begun()).toBe(1)
    all.push(enter(signedIn(1), work))
    endNext()
    await settled()
    expect(begun()).toBe(1)
    endNext()
    await settled()
    vi.advanceTimersByTime(25)
    await settled()
    endNext()
    expect(await Promise.all(all)).toEqual(['done', 'done', 'done', 'done'])
    vi.useRealTimers()
  })

  test('gives a place free when the work fails', async () => {
    const enter = gate({ atOnce: 1, waiting: 1, ofOne: 1, ofStrangers: 1, rest: 0 })
    const fails = () => Promise.reject(new Error('broken'))
    const [first, second] = [enter(stranger('a'), fails), enter(stranger('a'), fails)]
    await expect(first).rejects.toThrow('broken')
    await expect(second).rejects.toThrow('broken')
    await expect(enter(stranger('a'), async () => 'done')).resolves.toBe('done')
  })
})
