// The page that records a file of results.
import { randomUUID } from 'node:crypto'
import { type Context, Hono } from 'hono'
import { ResultsFilePage } from '../../views/lots/cords/results-file-page.tsx'
import { openToFile, recordFile } from '../lots/acts/import-results.ts'
import { readLot } from '../lots/record/lot.ts'
import { readResultsFile } from '../lots/rules/results-file.ts'
import { requireRole } from '../people/person.ts'
import { seeDone } from './http/done.ts'
import type { Env } from './http/env.ts'
import { frameOf } from './http/frame.ts'
import { attempt, readId } from './http/read.ts'
import { viewerOf } from './http/session.ts'
import { readUpload } from './http/upload.ts'

export const fileRoutes = new Hono<Env>()

fileRoutes.get('/:lot/file', async (c) => c.html(await filePage(c)))

/** Who, of which lot and in which state is asked before any of the file is read. */
fileRoutes.post('/:lot/file', async (c) => {
  const id = readId(c, 'lot')
  const { db } = c.var
  const terms = await openToFile(db, viewerOf(c), id)
  const form = await readUpload(c, (content) => readResultsFile(content, terms))
  if (form.kind === 'unreadable') return c.html(await filePage(c, form), 422)
  const { key, content, typed } = form
  const done = await attempt(c, typed, () => recordFile(db, viewerOf(c), id, { key, file: content }))
  if (done.kind === 'refused') return c.html(await filePage(c, done), done.status)
  if (done.result.kind === 'recorded')
    return seeDone(c, `/lots/${id}`, { code: 'results-recorded', count: done.result.count })
  return c.html(await filePage(c, { bad: done.result.bad, typed }), 422)
})

type Told = Pick<Parameters<typeof ResultsFilePage>[0], 'bad' | 'problems' | 'typed'>

async function filePage(c: Context<Env>, told: Told = {}) {
  requireRole(viewerOf(c), 'record-results')
  const lot = await readLot(c.var.db, readId(c, 'lot'))
  return <ResultsFilePage {...frameOf(c)} lot={lot} formKey={randomUUID()} {...told} />
}
