// Has what takes long worked out for the sender of a request, for as long as they wait for it.
import type { Context } from 'hono'
import type { Run } from '../../kit/task.ts'
import type { Env } from './env.ts'

/** A signed-in person counts as one client, everybody else by their network. */
export function runFor(c: Context<Env>): Run {
  const { compute, person, network } = c.var
  const client = person ? `person ${person.id}` : `network ${network}`
  return (task, input) => compute.run(task, input, { client, signal: c.req.raw.signal })
}
