// A page for what could not be done: what it was, where to go on, and the number to tell where it was our fault.
import { type Frame, Page } from './layout.tsx'

type Props = Frame & {
  title: string
  sentence: string
  number?: string | undefined
  wayOn?: { href: string; words: string } | undefined
}

export function ProblemPage({ title, sentence, number, wayOn, viewer, firm }: Props) {
  return (
    <Page title={title} viewer={viewer} firm={firm}>
      <h1>{title}</h1>
      <p>{sentence}</p>
      {number && (
        <p>
          Number of this request: <code>{number}</code>
        </p>
      )}
      {wayOn && (
        <p class="actions">
          <a class="button plain" href={wayOn.href}>
            {wayOn.words}
          </a>
        </p>
      )}
    </Page>
  )
}
