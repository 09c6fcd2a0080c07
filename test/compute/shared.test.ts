// What is worked out once for everybody, and what nobody's heavy questions can refuse them.
import { describe, expect, test } from 'vitest'
import { openCompute, type Threads, Unanswered } from '../../app/compute/compute.ts'
import { sharedBy } from '../../app/compute/shared.ts'
import { runHere, runOf, type Task } from '../../app/kit/task.ts'
import { testApp } from '../support/app.ts'
import { freshDatabase } from '../support/database.ts'
import { threePeople } from '../support/people.ts'

const task: Task<{ n: number }, { twice: number }> = { name: 'twice', work: ({ n }) => ({ twice: 2 * n }) }
const other: Task<{ n: number }, { thrice: number }> = { name: 'thrice', work: ({ n }) => ({ thrice: 3 * n }) }

/** Threads that note what they were asked; those that fail do so until they are mended. */
function noting() {
  const asked: string[] = []
  let broken = false
  const threads: Threads = {
    most: 1,
    async run(each, input) {
      asked.push(`${each.name} ${JSON.stringify(input)}`)
      if (broken) throw new RangeError('n must be a whole number')
      return each.work(input)
    },
    end: async () => {},
  }
  return {
    asked,
    threads,
    breaks: (now: boolean) => {
      broken = now
    },
  }
}

describe('what is the same for everybody', () => {
  test('is worked out once, for those who ask together and those who ask later, task by task', async () => {
    const { asked, threads } = noting()
    const run = sharedBy(threads)
    expect(await Promise.all([run(task, { n: 1 }), run(other, { n: 1 }), run(task, { n: 1 })])).toEqual([
      { twice: 2 },
      { thrice: 3 },
      { twice: 2 },
    ])
    expect(await run(task, { n: 1 })).toEqual({ twice: 2 })
    expect(asked).toEqual(['twice {"n":1}', 'thrice {"n":1}'])
  })

  test('is worked out anew when the facts have changed', async () => {
    const { asked, threads } = noting()
    const run = sharedBy(threads)
    await run(task, { n: 1 })
    expect(await run(task, { n: 2 })).toEqual({ twice: 4 })
    expect(await run(task, { n: 1 })).toEqual({ twice: 2 })
    expect(asked).toHaveLength(3)
  })

  test('is not kept where it failed', async () => {
    const { threads, breaks } = noting()
    const run = sharedBy(threads)
    breaks(true)
    await expect(run(task, { n: 1 })).rejects.toThrow('n must be')
    breaks(false)
    expect(await run(task, { n: 1 })).toEqual({ twice: 2 })
  })
})

test('more than a hundred pieces are worked out elsewhere, fewer here', () => {
  const elsewhere = sharedBy(noting().threads)
  expect(runOf(100, elsewhere)).toBe(runHere)
  expect(runOf(101, elsewhere)).toBe(elsewhere)
})

test('the list of lots is there while every thread of the others is taken', async () => {
  const { db } = await freshDatabase()
  const three = await threePeople(db)
  const full: Threads = {
    most: 1,
    run: async () => {
      throw new Unanswered('own-questions')
    },
    end: async () => {},
  }
  const reader = await testApp(db, { compute: openCompute(full) }).appAs(three.manager)
  expect((await reader.get('/percentage')).status).toBe(429)
  expect((await reader.get('/lots')).status).toBe(200)
})
