// Who may have what worked out, and when: two things at once a client, a short queue, and an end to waiting.
import type { Task } from '../kit/task.ts'

/** Who asks, and whether they still want to know: a browser that has gone away wants nothing more. */
export type Asker = { readonly client: string; readonly signal: AbortSignal }

export type Compute = {
  /** Throws Unanswered where there is no room, or no answer in time. */
  run<In, Out>(task: Task<In, Out>, input: In, asker: Asker): Promise<Out>
  end(): Promise<void>
}

/** Where tasks are done: `most` at once. A signal ends one in the middle of its work. */
export type Threads = {
  readonly most: number
  run<In, Out>(task: Task<In, Out>, input: In, signal: AbortSignal): Promise<Out>
  end(): Promise<void>
}

/** Thrown where a question stays without an answer for now; its message is for the reader. */
export class Unanswered extends Error {
  readonly status: 429 | 503

  constructor(status: 429 | 503, message: string) {
    super(message)
    this.status = status
  }
}

/** From the question on, its time in the queue included. What is worked out is bounded in steps, so only a crowded machine needs it. */
const LONGEST = 5000

const mostEach = 2
const mostWaitingEach = 4
const mostWaiting = 24

export function openCompute(threads: Threads): Compute {
  const queue = queueFor(threads.most)
  return {
    async run(task, input, { client, signal: gone }) {
      const late = new AbortController()
      const timer = setTimeout(() => late.abort(), LONGEST)
      const signal = AbortSignal.any([gone, late.signal])
      try {
        await queue.turn(client, signal)
        try {
          return await threads.run(task, input, signal)
        } finally {
          queue.done(client)
        }
      } catch (error) {
        if (late.signal.aborted) throw new Unanswered(503, tooLate)
        if (gone.aborted) throw new Unanswered(503, 'The browser that asked has gone')
        throw error
      } finally {
        clearTimeout(timer)
      }
    },
    end: () => threads.end(),
  }
}

const tooLate =
  'That was not worked out within five seconds, because too much else is being worked out. Load the page again in a moment.'
const tooManyOfYours =
  'Several of your questions are being worked out or wait for it. Wait for their answers, then load this page again.'
const tooMany = 'Too many questions wait to be worked out. Load the page again in a moment.'

type Waiting = { readonly client: string; readonly go: () => void }

/** Lets `most` run at once, two of them of one client, the others in the order in which they came. */
function queueFor(most: number) {
  const running: string[] = []
  const waiting: Waiting[] = []
  const mayRun = (client: string) => running.length < most && numberOf(running, client) < mostEach

  return {
    async turn(client: string, signal: AbortSignal): Promise<void> {
      signal.throwIfAborted()
      if (mayRun(client)) {
        running.push(client)
        return
      }
      const own = waiting.filter((each) => each.client === client).length
      if (own >= mostWaitingEach) throw new Unanswered(429, tooManyOfYours)
      if (waiting.length >= mostWaiting) throw new Unanswered(503, tooMany)
      await new Promise<void>((go, reject) => {
        const entry = { client, go }
        waiting.push(entry)
        signal.addEventListener('abort', () => {
          const at = waiting.indexOf(entry)
          if (at < 0) return
          waiting.splice(at, 1)
          reject(signal.reason)
        })
      })
    },
    done(client: string): void {
      running.splice(running.indexOf(client), 1)
      const next = waiting.findIndex((each) => mayRun(each.client))
      const [entry] = next < 0 ? [] : waiting.splice(next, 1)
      if (!entry) return
      running.push(entry.client)
      entry.go()
    },
  }
}

function numberOf(clients: string[], client: string): number {
  return clients.filter((each) => each === client).length
}
