// Work at once that ends as if it had been done one after the other.
import { setTimeout as sleep } from 'node:timers/promises'
import { expect, test } from 'vitest'
import { allOf } from '../../app/kit/all-of.ts'

const after = async <T>(turns: number, made: () => T): Promise<T> => {
  await sleep(turns * 5)
  return made()
}
const failing = (turns: number, message: string) =>
  after(turns, () => {
    throw new Error(message)
  })

test('returns what was made in the order of the works, whichever ended first', async () => {
  expect(await allOf([after(3, () => 'slow'), after(1, () => 2), 'at hand'])).toEqual(['slow', 2, 'at hand'])
})

test('throws the failure that would have come first, though a later one came sooner', async () => {
  await expect(allOf([after(1, () => 1), failing(4, 'first'), failing(1, 'second')])).rejects.toThrow('first')
})

test('ends only when everything has ended, so that nothing goes on behind a failure', async () => {
  let ended = false
  const long = after(5, () => {
    ended = true
  })
  await expect(allOf([failing(1, 'early'), long])).rejects.toThrow('early')
  expect(ended).toBe(true)
})
