// A page for what could not be done: what it was, what to do now, and the number to tell where it was our fault.
import { type Frame, Page } from './layout.tsx'

type Props = Frame & { title: string; sentence: string; number?: string | undefined }

export function ProblemPage({ title, sentence, number, viewer, firm }: Props) {
  return (
    <Page title={title} viewer={viewer} firm={firm}>
      <h1>{title}</h1>
      <p>{sentence}</p>
      {number && (
        <p>
          Number of this request: <code>{number}</code>
        </p>
      )}
    </Page>
  )
}
