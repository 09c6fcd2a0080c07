// Pages of people: signing in and out, and the first run.
import { type Context, Hono } from 'hono'
import { z } from 'zod'
import { SignInPage } from '../../views/people/sign-in.tsx'
import type { Env } from '../http/env.ts'
import { text, wholeNumber } from '../http/fields.ts'
import { carryOut } from '../http/read.ts'
import { giveCookie, takeCookie } from '../http/session.ts'
import { Refusal } from '../kit/refusal.ts'
import { examplePeople, loopback, signInAsExample } from './example.ts'
import { closeSession } from './session.ts'
import { signIn } from './sign-in.ts'

/** No account needed. */
export const entryRoutes = new Hono<Env>()

const signInForm = z.object({
  name: text('Type your name', 80),
  password: z.string().min(1, { error: 'Type your password' }).max(1000, { error: 'At most 1000 characters' }),
})

entryRoutes.get('/sign-in', async (c) => {
  const { firm } = c.var
  return c.html(<SignInPage firm={firm} back={ownPath(c.req.query('back'))} example={await doorsOf(c)} />)
})

entryRoutes.post('/sign-in', async (c) => {
  const done = await carryOut(c, signInForm, (form) => signIn(c.var.db, form))
  const back = ownPath((await c.req.parseBody()).back)
  if (done.kind === 'refused')
    return c.html(<SignInPage firm={c.var.firm} back={back} example={await doorsOf(c)} {...done} />, 422)
  giveCookie(c, done.result)
  return c.redirect(back, 303)
})

const exampleForm = z.object({ person: wholeNumber({ from: 1, to: 2_147_483_647 }, 'Choose a person') })

entryRoutes.post('/sign-in/example', async (c) => {
  const { demo, db } = c.var
  if (!demo || !loopback(c.req.header('host'))) throw new Refusal('missing', 'There is no such page')
  const done = await carryOut(c, exampleForm, (form) => signInAsExample(db, form.person))
  if (done.kind === 'refused') return c.redirect('/sign-in', 303)
  giveCookie(c, done.result)
  return c.redirect(ownPath((await c.req.parseBody()).back), 303)
})

entryRoutes.post('/sign-out', async (c) => {
  const token = takeCookie(c)
  if (token !== undefined) await closeSession(c.var.db, token)
  return c.redirect('/sign-in', 303)
})

async function doorsOf(c: Context<Env>) {
  const { demo, firm, db } = c.var
  return demo && firm?.example && loopback(c.req.header('host')) ? examplePeople(db) : []
}

/** Where to go after signing in: a path of ours, never another site that somebody wrote into the address. */
function ownPath(back: unknown): string {
  return typeof back === 'string' && /^\/(?![/\\])[^\s\\]*$/.test(back) ? back : '/lots'
}
