// What a form hands back to its page when it could not be read: everything typed, but never a password, and of a file its name.
import { Hono } from 'hono'
import { expect, test } from 'vitest'
import { z } from 'zod'
import type { Env } from '../../../app/web/http/env.ts'
import { runForm } from '../../../app/web/http/read.ts'

const app = new Hono<Env>()
app.post('/', async (c) => c.json(await runForm(c, z.object({ never: z.string() }), async () => 'done')))

async function typedBack(fields: Record<string, string | Blob>): Promise<unknown> {
  const body = new FormData()
  for (const [name, value] of Object.entries(fields)) body.append(name, value)
  const response = await app.request('/', { method: 'POST', body })
  const { typed, ...refused } = z.looseObject({ typed: z.unknown() }).parse(await response.json())
  expect(refused).toMatchObject({ kind: 'refused', status: 422 })
  return typed
}

test.each([
  ['a name', { name: 'Ida', password: 'never to be seen' }, { name: 'Ida' }],
  ['both new passwords', { reason: 'why', passwordAgain: 'a', newPassword: 'b', PASSWORD: 'c' }, { reason: 'why' }],
  ['a file', { note: 'x', file: new File(['1,2'], 'results.csv') }, { note: 'x', file: 'results.csv' }],
])('%s', async (_what, fields, typed) => {
  expect(await typedBack(fields)).toEqual(typed)
})
