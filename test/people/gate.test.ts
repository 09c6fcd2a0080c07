// The gate before slow work: how many run, how many wait, and who is sent away. Counted, not timed.
import { describe, expect, test } from 'vitest'
import { gate } from '../../app/people/gate.ts'

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
    const enter = gate({ atOnce: 2, waiting: 20, ofOne: 20 })
    const { work, most, begun, endNext } = works()
    const asked = Array.from({ length: 30 }, (_, n) => enter(`asker ${n}`, work).catch((error: Error) => error))
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
    const enter = gate({ atOnce: 2, waiting: 20, ofOne: 10 })
    const { work, endNext } = works()
    const crowd = Array.from({ length: 50 }, () => enter('crowd', work).catch(() => 'away'))
    const other = enter('somebody else', work)
    for (let n = 0; n < 13; n++) {
      await settled()
      endNext()
    }
    expect(await other).toBe('done')
    expect((await Promise.all(crowd)).filter((answer) => answer === 'done')).toHaveLength(12)
  })

  test('gives a place free when the work fails', async () => {
    const enter = gate({ atOnce: 1, waiting: 1, ofOne: 1 })
    const fails = () => Promise.reject(new Error('broken'))
    const [first, second] = [enter('a', fails), enter('a', fails)]
    await expect(first).rejects.toThrow('broken')
    await expect(second).rejects.toThrow('broken')
    await expect(enter('a', async () => 'done')).resolves.toBe('done')
  })
})
