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

/** Why a question stays without an answer: nobody waits for it any more, it came to no end in time, or others come first. */
export type WhyUnanswered = 'gone' | 'late' | 'own-questions' | 'many-questions'

/** Thrown where a question stays without an answer for now. Its message is the code. */
export class Unanswered extends Error {
  readonly why: WhyUnanswered
  readonly status: 429 | 503

  constructor(why: WhyUnanswered) {
    super(why)
    this.why = why
    this.status = why === 'own-questions' ? 429 : 503
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
        if (late.signal.aborted) throw new Unanswered('late')
        if (gone.aborted) throw new Unanswered('gone')
        throw error
      } finally {
        clearTimeout(timer)
      }
    },
    end: () => threads.end(),
  }
}

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
      if (own >= mostWaitingEach) throw new Unanswered('own-questions')
      if (waiting.length >= mostWaiting) throw new Unanswered('many-questions')
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
