// How large and how long things may be, for forms, verbs and questions alike. The database checks the same numbers; a test compares.

/** Cords of a lot, its cartons, and the cords in one: the service is measured up to here. */
export const largestLot = 1_000_000

/** Cords of a group: one alone would be a list in random order, and no bench tests so many in an hour as the other. */
export const smallestGroup = 2
export const largestGroup = 1000

/** The database's whole numbers end here: numbers of rows, versions. */
export const largestId = 2_147_483_647

/** Cents of one cost. */
export const largestCost = 1_000_000_000

/** Decibels of a margin, on either side of the limit. */
export const widestMargin = 100

/** Cords listed on one page, as a telephone still scrolls it: a screened lot may hold a hundred thousand that do not conform. */
export const cordsAtOnce = 1000

/** Characters of a text, by what it is. */
export const lengths = {
  /** of a person */
  person: 80,
  /** what is typed at sign-in, however long a password may be */
  password: 1000,
  /** of suppliers, items, firms; marks of production, orders, categories, limits */
  name: 120,
  /** carton, spool and serial of a tester */
  mark: 60,
  /** who bears a concession's risk, and for which use */
  concession: 300,
  /** why a cord was not tested, or an entry corrected */
  note: 500,
  /** of a contract's clause */
  clauseNumber: 40,
  clauseText: 2000,
  /** of a decision, a withdrawal, a receipt, a series */
  reason: 2000,
} as const
