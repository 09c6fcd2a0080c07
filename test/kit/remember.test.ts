// Remembered answers of pure tasks: worked out once for equal facts, again for others, after a failure, and when they are old.
import { expect, test } from 'vitest'
import { rememberedRun } from '../../app/kit/remember.ts'
import { type Run, runHere, type Task } from '../../app/kit/task.ts'

function counting() {
  const asked: number[] = []
  const doubled: Task<{ of: number }, number> = {
    name: 'doubled',
    work: ({ of }) => {
      asked.push(of)
      return 2 * of
    },
  }
  return { asked, doubled, ask: rememberedRun<{ of: number }, number>() }
}

test('equal facts are worked out once, others by themselves', async () => {
  const { asked, doubled, ask } = counting()
  expect([await ask(runHere, doubled, { of: 3 }), await ask(runHere, doubled, { of: 3 })]).toEqual([6, 6])
  expect(await ask(runHere, doubled, { of: 4 })).toBe(8)
  expect(asked).toEqual([3, 4])
})

test('a failure is not remembered', async () => {
  const { asked, doubled, ask } = counting()
  const failing: Run = () => Promise.reject(new Error('no thread is free'))
  await expect(ask(failing, doubled, { of: 3 })).rejects.toThrow('no thread is free')
  expect(await ask(runHere, doubled, { of: 3 })).toBe(6)
  expect(asked).toEqual([3])
})

test('only the latest are kept', async () => {
  const { asked, doubled, ask } = counting()
  for (let of = 1; of <= 9; of++) await ask(runHere, doubled, { of })
  await ask(runHere, doubled, { of: 9 })
  await ask(runHere, doubled, { of: 1 })
  expect(asked).toEqual([1, 2, 3, 4, 5, 6, 7, 8, 9, 1])
})
