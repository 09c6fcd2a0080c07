// Printed pages of a lot: the note that goes with its cords, and the notice to its supplier.
import { Hono } from 'hono'
import { NotePage } from '../../views/documents/note-page.tsx'
import { NoticePage } from '../../views/documents/notice-page.tsx'
import { dateOf } from '../../views/figures.ts'
import { noteForCords } from '../documents/note.ts'
import { noticeOf } from '../documents/notice.ts'
import { calendarDay } from '../kit/fields.ts'
import { cordsAtOnce } from '../kit/limits.ts'
import { Refusal } from '../kit/refusal.ts'
import { readLot } from '../lots/record/lot.ts'
import { failingCordsOf } from '../lots/review.ts'
import type { Env } from './http/env.ts'
import { frameOf } from './http/frame.ts'
import { readId } from './http/read.ts'

export const documentRoutes = new Hono<Env>()

documentRoutes.get('/:lot/note', async (c) => {
  const lot = await readLot(c.var.db, readId(c, 'lot'))
  const note = noteForCords(lot)
  if (!note) throw new Refusal('conflict', 'document/not-closed', { lot: lot.id })
  return c.html(<NotePage {...frameOf(c)} note={note} />)
})

/** A day that cannot be read stands for the usual one. */
const day = calendarDay('There is no such day').optional().catch(undefined)

documentRoutes.get('/:lot/notice', async (c) => {
  const { lot, failing } = await failingCordsOf(c.var.db, readId(c, 'lot'), { after: 0, atMost: cordsAtOnce + 1 })
  const notice = noticeOf(lot, failing, { by: day.parse(c.req.query('by')), atMost: cordsAtOnce, dayOf: dateOf })
  if (!notice) throw new Refusal('conflict', 'document/no-notice', { lot: lot.id })
  return c.html(<NoticePage {...frameOf(c)} notice={notice} />)
})
