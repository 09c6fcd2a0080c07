// Everybody with an account: roles, and adding one more.

import type { Problems, Typed } from '../../app/kit/problems.ts'
import type { PersonFacts } from '../../app/people/accounts/list.ts'
import { day } from '../figures.ts'
import { ChoiceField, Field, FormKey, ProblemSummary, Select } from '../form.tsx'
import { type Frame, Page } from '../layout.tsx'
import { DataTable } from '../table.tsx'
import { roleWords } from '../words/people.ts'

type Props = Frame & {
  people: PersonFacts[]
  /** number of the reader */
  own: number
  formKey: string
  shortest: number
  problems?: Problems | undefined
  typed?: Typed | undefined
}

const roles = [
  { value: 'officer', label: roleWords.officer, note: 'suppliers, items, lots, the plan' },
  { value: 'inspector', label: roleWords.inspector, note: 'receives, draws, records' },
  { value: 'manager', label: 'manager', note: 'signs decisions, manages accounts' },
]

export function PeoplePage({ people, own, formKey, shortest, problems, typed, viewer, firm, done }: Props) {
  return (
    <Page title="People" current="people" viewer={viewer} firm={firm} done={done}>
      <h1>People</h1>
      <DataTable
        columns={[
          { head: 'Name' },
          { head: 'Role', text: true },
          { head: 'Since', text: true },
          { head: 'Change', text: true },
        ]}
        rows={people.map((person) => ({ cells: cellsOf(person, own) }))}
      />
      <h2>Add a person</h2>
      <ProblemSummary problems={problems} />
      <form method="post" action="/people">
        <FormKey value={formKey} />
        <Field name="name" label="Name" value={typed?.name} problem={problems?.name} required />
        <ChoiceField name="role" label="Role" value={typed?.role} problem={problems?.role} options={roles} required />
        <Field
          name="password"
          label="Temporary password"
          hint={`At least ${shortest} characters; hand it over in person. It opens only the page where the person chooses another.`}
          type="password"
          problem={problems?.password}
          autocomplete="new-password"
          required
        />
        <button type="submit">Add this person</button>
      </form>
    </Page>
  )
}

function cellsOf(person: PersonFacts, own: number) {
  const { name, role, active, createdAt } = person
  if (!active)
    return [name, `${roleWords[role]}, not active any more`, day(createdAt), <Reactivation person={person} />]
  return [name, roleWords[role], day(createdAt), <Change person={person} own={person.id === own} />]
}

function Change({ person: { id, name, role }, own }: { person: PersonFacts; own: boolean }) {
  return (
    <details class="person-change">
      <summary>Change {name}</summary>
      <form method="post" action={`/people/${id}/role`}>
        <input type="hidden" name="seen" value={role} />
        <Select
          id={`role-${id}`}
          name="role"
          label={`Role of ${name}`}
          value={role}
          options={roles.map(({ value, label }) => ({ value, label }))}
        />
        <button type="submit" class="plain">
          Set the role
        </button>
      </form>
      <p>
        <a href={`/people/${id}/deactivation`}>Deactivate {name}</a>
      </p>
      {own ? (
        <p>
          <a href="/people/password">Change your own password</a>
        </p>
      ) : (
        <Reset id={id} name={name} />
      )}
    </details>
  )
}

function Reset({ id, name }: { id: number; name: string }) {
  return (
    <form method="post" action={`/people/${id}/password-reset`}>
      <p>
        Forgotten? A reset signs {name} out everywhere and shows you a link to hand over, by which {name} chooses a new
        password.
      </p>
      <button type="submit" class="plain">
        Reset the password of {name}
      </button>
    </form>
  )
}

function Reactivation({ person: { id, name } }: { person: PersonFacts }) {
  return (
    <form method="post" action={`/people/${id}/reactivation`}>
      <button type="submit" class="plain">
        Reactivate {name}
      </button>
    </form>
  )
}
