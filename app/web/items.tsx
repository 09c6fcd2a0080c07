// Pages of items: the register, one item, defining and changing it.
import { randomUUID } from 'node:crypto'
import { Hono } from 'hono'
import { ItemPage, NewItemPage } from '../../views/items/item-page.tsx'
import { ItemsPage } from '../../views/items/items-page.tsx'
import { requireRole } from '../people/person.ts'
import { changeItem, defineItem } from '../register/define-item.ts'
import { itemOf, itemsOf } from '../register/items.ts'
import { itemChangeForm, itemForm } from './forms/items.ts'
import { seeDone } from './http/done.ts'
import type { Env } from './http/env.ts'
import { frameOf } from './http/frame.ts'
import { readId, runForm } from './http/read.ts'
import { viewerOf } from './http/session.ts'

export const itemRoutes = new Hono<Env>()

itemRoutes.get('/', async (c) => c.html(<ItemsPage {...frameOf(c)} items={await itemsOf(c.var.db)} />))

itemRoutes.get('/new', (c) => {
  requireRole(viewerOf(c), 'define-item')
  return c.html(<NewItemPage {...frameOf(c)} formKey={randomUUID()} />)
})

itemRoutes.post('/', async (c) => {
  const done = await runForm(c, itemForm, (form) => defineItem(c.var.db, viewerOf(c), form))
  if (done.kind === 'done') return seeDone(c, `/items/${done.result}`, { code: 'item-defined' })
  return c.html(<NewItemPage {...frameOf(c)} {...done} formKey={randomUUID()} />, done.status)
})

itemRoutes.get('/:item', async (c) => {
  const item = await itemOf(c.var.db, readId(c, 'item'))
  return c.html(<ItemPage {...frameOf(c)} item={item} formKey={randomUUID()} />)
})

itemRoutes.post('/:item', async (c) => {
  const id = readId(c, 'item')
  const done = await runForm(c, itemChangeForm, (form) => changeItem(c.var.db, viewerOf(c), id, form))
  if (done.kind === 'done') return seeDone(c, `/items/${id}`, { code: 'item-changed' })
  const item = await itemOf(c.var.db, id)
  return c.html(<ItemPage {...frameOf(c)} {...done} item={item} formKey={randomUUID()} />, done.status)
})
