// Writers that record results through the bench's form and send a form again until it is answered, as a person does.
import { randomUUID } from 'node:crypto'
import { setTimeout as sleep } from 'node:timers/promises'
import type postgres from 'postgres'
import type { Place } from './ground.ts'

export type Writers = {
  /** how often each writer was answered 303 so far */
  done(): number[]
  /** how often each answer came; `cut` stands for a connection that ended without one */
  answers: Map<string, number>
  /** lets each finish the form at hand */
  stop(): Promise<void>
  /** what was acknowledged and is not in the record, and what is told twice in the audit */
  judge(owner: postgres.Sql): Promise<Judgement>
}

export type Judgement = { acknowledged: number; lost: number; doubled: number }

/** Milliseconds between two forms of a writer, and before a form is sent again. */
const PAUSE = 5

/** Begins to work at every place. A writer that ran out of cords throws, as the measurement would be void. */
export function startWriters(address: string, places: Place[]): Writers {
  const acknowledged: { lotId: number; position: number }[] = []
  const counts = places.map(() => 0)
  const answers = new Map<string, number>()
  let stopped = false

  async function work({ cookie, lotId, positions }: Place, writer: number): Promise<void> {
    for (const position of positions) {
      const key = randomUUID()
      for (let status = ''; status !== '303'; await sleep(PAUSE)) {
        if (stopped) return
        status = await send(address, cookie, lotId, { ...reading, key, position: String(position) })
        answers.set(status, (answers.get(status) ?? 0) + 1)
      }
      acknowledged.push({ lotId, position })
      counts[writer] = (counts[writer] ?? 0) + 1
    }
    throw new Error('A writer ran out of cords')
  }

  const working = Promise.all(places.map(work))
  working.catch(() => {}) // told by stop()
  return {
    answers,
    done: () => [...counts],
    async stop() {
      stopped = true
      await working
    },
    judge: (owner) => judge(owner, acknowledged),
  }
}

const reading = {
  kind: 'tested',
  crosstalkSide: 'above',
  crosstalkMargin: '4.1',
  returnLossSide: 'above',
  returnLossMargin: '3.7',
  wireMap: 'in-order',
  visual: 'in-order',
  carton: '',
  spool: '',
  testerSerial: '',
}

async function send(address: string, cookie: string, lotId: number, form: Record<string, string>): Promise<string> {
  const headers = { origin: address, cookie }
  try {
    const body = new URLSearchParams(form)
    const answer = await fetch(`${address}/lots/${lotId}/bench`, { method: 'POST', headers, body, redirect: 'manual' })
    await answer.arrayBuffer()
    return String(answer.status)
  } catch {
    return 'cut'
  }
}

async function judge(owner: postgres.Sql, acknowledged: { lotId: number; position: number }[]): Promise<Judgement> {
  const kept = await owner<{ lotId: number; position: number }[]>`select lot_id as "lotId", position from results`
  const there = new Set(kept.map(({ lotId, position }) => `${lotId}/${position}`))
  const [twice] = await owner<{ n: number }[]>`
    select count(*)::int as n from (
      select subject from audit where action = 'cord.recorded' group by subject having count(*) > 1) told`
  return {
    acknowledged: acknowledged.length,
    lost: acknowledged.filter(({ lotId, position }) => !there.has(`${lotId}/${position}`)).length,
    doubled: twice?.n ?? 0,
  }
}
