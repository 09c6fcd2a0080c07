// Shows what deactivating an account will do before it is done.
import type { PersonFacts } from '../../app/people/accounts/list.ts'
import { Columns } from '../frame.tsx'
import { type Frame, Page } from '../layout.tsx'
import { roleWords } from '../words/people.ts'

export function DeactivationPage({ viewer, firm, done, person }: Frame & { person: PersonFacts }) {
  const { id, name, role } = person
  return (
    <Page title={`Deactivate ${name}`} current="people" viewer={viewer} firm={firm} done={done}>
      <Columns
        side="right"
        panel={
          <>
            <form method="post" action={`/people/${id}/deactivation`}>
              <button type="submit">Deactivate {name}</button>
            </form>
            <p>
              <a href="/people">Back to People</a>
            </p>
          </>
        }
      >
        <h1>
          <a href="/people">People</a> · {name}, {roleWords[role]}
        </h1>
        <p class="answer">Deactivate the account of {name}.</p>
        <p class="because">
          {name} is signed out everywhere at once and cannot sign in any more. Every record keeps the name. A manager
          can activate the account again.
        </p>
      </Columns>
    </Page>
  )
}
