// Closed sets of words for people: their roles, and what a link that works once is for.

export const roles = ['officer', 'inspector', 'manager'] as const
export type Role = (typeof roles)[number]

export const linkPurposes = ['set-up', 'new-password', 'new-manager'] as const
