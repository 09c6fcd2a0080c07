// The register of suppliers, and the form that adds one.

import type { Problems, Typed } from '../../app/kit/problems.ts'
import type { SupplierLine } from '../../app/register/suppliers.ts'
import type { Role } from '../../app/terms/person.ts'
import { day, whole } from '../figures.ts'
import { Field, FormKey, ProblemSummary } from '../form.tsx'
import { type Frame, Page } from '../layout.tsx'
import { DataTable } from '../table.tsx'

type Props = Frame & { roles: Role[]; suppliers: SupplierLine[]; formKey: string; problems?: Problems; typed?: Typed }

/** Everybody signed in reads the register; the procurement officer adds to it. */
export function SuppliersPage({ viewer, firm, done, roles, suppliers, formKey, problems, typed }: Props) {
  return (
    <Page title="Suppliers" current="suppliers" viewer={viewer} firm={firm} done={done}>
      <h1>Suppliers</h1>
      {suppliers.length === 0 ? (
        <p>Nobody is registered yet. A procurement officer registers a supplier before its first lot is announced.</p>
      ) : (
        <>
          <Register suppliers={suppliers} />
          <p>
            Withdrawn lots are left out. Suppliers stand in the order of their last lot, not of their quality.{' '}
            <a href="/suppliers/comparison">Suppliers side by side</a> ·{' '}
            <a href="/percentage">What would a percentage have let through?</a>
          </p>
        </>
      )}
      {roles.includes('officer') && (
        <form method="post" action="/suppliers">
          <h2>Register a supplier</h2>
          <ProblemSummary problems={problems} />
          <FormKey value={formKey} />
          <Field
            name="name"
            label="Name"
            hint="As it stands on its delivery notes"
            value={typed?.name}
            problem={problems?.name}
            maxlength={120}
            required
          />
          <button type="submit">Register this supplier</button>
        </form>
      )}
    </Page>
  )
}

function Register({ suppliers }: { suppliers: SupplierLine[] }) {
  return (
    <DataTable
      columns={[
        { head: 'Supplier' },
        { head: 'Lots' },
        { head: 'of these decided' },
        { head: 'Last announced', text: true },
      ]}
      rows={suppliers.map((supplier) => ({
        cells: [
          <a href={`/suppliers/${supplier.id}`}>{supplier.name}</a>,
          whole(supplier.lots),
          whole(supplier.decided),
          supplier.lastAt ? day(supplier.lastAt) : 'none yet',
        ],
      }))}
    />
  )
}
