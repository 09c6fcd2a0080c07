// The frame of every page: name, ways to go, who is signed in, whether everything shown is an invented example.

import { raw } from 'hono/html'
import type { Child } from 'hono/jsx'
import type { Firm } from '../app/people/firm.ts'
import type { Done } from '../app/terms/done.ts'
import type { Person } from '../app/terms/person.ts'
import { htmx, siteMark, styleSheet } from './assets.ts'
import { doneWords } from './words/done.ts'

export type NavigationPlace = 'advisor' | 'proof' | 'lots' | 'suppliers' | 'items' | 'people' | 'audit' | 'sign-in'

/** What every page is told: who reads, which firm, and what the page before left to be said. */
export type Frame = {
  viewer?: Pick<Person, 'name' | 'role'> | undefined
  firm?: Firm | undefined
  done?: Done | undefined
}

/** `description`: what the page is for, for those who see it in a list of pages. */
type Props = Frame & { title: string; description?: string; current?: NavigationPlace; children?: Child }

/** A whole page. The title is what the browser's tab says; the page brings its own h1. */
export function Page({ title, description = ofAll, viewer, firm, done, current, children }: Props) {
  return (
    <>
      {raw('<!doctype html>')}
      <html lang="en">
        <head>
          <meta charset="utf-8" />
          <meta name="viewport" content="width=device-width, initial-scale=1" />
          <meta name="color-scheme" content="light dark" />
          <title>{`${title} · Cordsift`}</title>
          <meta name="description" content={description} />
          <link rel="stylesheet" href={styleSheet.path} />
          <link rel="icon" href={siteMark.path} type="image/svg+xml" />
          <meta name="htmx-config" content={keepsFolds} />
          <script src={htmx.path} defer></script>
        </head>
        <body>
          <a class="skip" href="#main">
            Skip to the page
          </a>
          <Header viewer={viewer} firm={firm} current={current} />
          <main id="main" tabindex={-1}>
            {done && (
              <p class="done" role="status">
                {doneWords(done)}
              </p>
            )}
            {children}
          </main>
          <footer>
            <p>
              Cordsift advises; contract, local codes and licensed practice decide. Test cords unpowered, with a tester
              in calibration. It does not assess conductor metal, fire rating or installed links.
            </p>
          </footer>
        </body>
      </html>
    </>
  )
}

const ofAll = 'How many patch cords of a lot to test, what the tested ones prove, and the record of what was decided.'

/** An answer that follows what is typed leaves open what the reader has opened. */
const keepsFolds = JSON.stringify({ morphIgnore: ['data-htmx-powered', 'open'] })

type HeaderProps = Frame & { current: NavigationPlace | undefined }

function Header({ viewer, firm, current }: HeaderProps) {
  return (
    <header class="site">
      <div class="site-row">
        <a class="site-name" href="/">
          Cordsift
        </a>
        <nav aria-label="Main">
          {waysFor(viewer).map(({ place, href, word }) => (
            <a href={href} aria-current={place === current ? 'page' : undefined}>
              {word}
            </a>
          ))}
        </nav>
        {viewer && (
          <form class="leave" method="post" action="/sign-out">
            <span>
              <a href="/people/password">{viewer.name}</a>, {viewer.role}
            </span>
            <button type="submit" class="link">
              Sign out
            </button>
          </form>
        )}
      </div>
      {firm?.example && (
        <p class="example">
          <b>An example:</b> {firm.name}, its suppliers, people and numbers are invented.
        </p>
      )}
    </header>
  )
}

type Way = { place: NavigationPlace; href: string; word: string }

function waysFor(reader: Frame['viewer']): Way[] {
  const open: Way[] = [
    { place: 'advisor', href: '/', word: 'Plan' },
    { place: 'proof', href: '/proof', word: 'Prove' },
  ]
  if (!reader) return [...open, { place: 'sign-in', href: '/sign-in', word: 'Sign in' }]
  const record: Way[] = [
    { place: 'lots', href: '/lots', word: 'Lots' },
    { place: 'suppliers', href: '/suppliers', word: 'Suppliers' },
    { place: 'items', href: '/items', word: 'Items' },
    { place: 'audit', href: '/audit', word: 'Audit' },
  ]
  if (reader.role === 'manager') record.push({ place: 'people', href: '/people', word: 'People' })
  return [...open, ...record]
}
