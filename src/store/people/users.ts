import { randomUUID } from 'node:crypto';
import { hash, verify } from '@node-rs/argon2';
import type { Selectable } from 'kysely';
import { DoorpostError } from '../../errors.js';
import { checkedUserName, newPassword, newPasswordLimits } from '../../records/check/check-account.js';
import type { AuditAction } from '../../words/audit-names.js';
import { atomically } from '../atomically.js';
import { writeAudit } from '../audit.js';
import type { Database } from '../connect.js';
import { recordOf } from '../record-of.js';
import { notFound, refuseStale } from '../refusals.js';
import type { Actor, AuditDetail, Expected, Role, User } from '../shapes.js';
import type { Tables } from '../tables.js';
import { fewAtOnce } from './few-at-once.js';
import { isGuessable } from './guessable-password.js';

/** Of Node's four threads two stay free for files and compression while everybody signs in at eight o'clock. */
const hashing = fewAtOnce(2);
/** argon2id with 19 MiB, 2 passes, 1 lane: the library's default, as the OWASP password storage page advises (from memory). */
const hashPassword = async (password: string, own: readonly string[]): Promise<string> => {
  if (!newPassword.safeParse(password).success)
    throw new DoorpostError('invalid-value', 'The password is too short or too long', {
      field: 'password',
      accepted: `${newPasswordLimits.minLength} to ${newPasswordLimits.maxLength} characters`,
    });
  if (await isGuessable(password, ['doorpost', ...own]))
    throw new DoorpostError('invalid-value', 'The password is easy to guess', {
      field: 'password',
      accepted: 'one that is no common password, no row of keys, no repetition and not the name',
    });
  return hashing(() => hash(password));
};
const namesOf = ({ name, displayName }: User): string[] => [name, displayName];
/** What an unknown name is checked against, so that it takes as long as a known one. */
let decoy: Promise<string> | null = null;

// biome-ignore lint/complexity/noExcessiveLinesPerFunction: a list of queries, each short
export const usersRepository = (db: Database) => ({
  async list() {
    return (await db.selectFrom('users').selectAll().orderBy('name').execute()).map(userOf);
  },

  async get(userId: string) {
    const row = await db.selectFrom('users').selectAll().where('id', '=', userId).executeTakeFirst();
    if (!row) throw notFound('user');
    return userOf(row);
  },

  async create(given: { name: string; displayName?: string; role: Role; password?: string }, actor: Actor) {
    const name = checkedUserName(given.name);
    const password_hash =
      given.password === undefined
        ? null
        : await hashPassword(given.password, [name, given.displayName ?? '']);
    return atomically(db, async (tx) => {
      const row = await tx
        .insertInto('users')
        .values({
          id: randomUUID(),
          name,
          display_name: given.displayName ?? given.name,
          role: given.role,
          password_hash,
          password_by_other: password_hash !== null && actor.role !== 'system',
        })
        .onConflict((c) => c.doNothing())
        .returningAll()
        .executeTakeFirst();
      if (!row)
        throw new DoorpostError('already-there', 'There is a user of this name already', { field: 'name' });
      await auditUser(tx, actor, 'create', row.id, { role: row.role });
      return userOf(row);
    });
  },

  async change(
    userId: string,
    change: { displayName?: string; role?: Role; disabled?: boolean; password?: string },
    expected: Expected,
    actor: Actor,
  ) {
    if (Object.values(change).every((value) => value === undefined))
      throw new DoorpostError('invalid-value', 'Nothing was named that is to change', {
        accepted: 'displayName, role, disabled or password',
      });
    const password_hash =
      change.password === undefined
        ? undefined
        : await hashPassword(change.password, namesOf(await this.get(userId)));
    return atomically(db, async (tx) => {
      const before = await tx
        .selectFrom('users')
        .selectAll()
        .where('id', '=', userId)
        .forUpdate()
        .executeTakeFirst();
      if (!before) throw notFound('user');
      refuseStale(expected, before.version);
      const row = await tx
        .updateTable('users')
        .set({
          display_name: change.displayName,
          role: change.role,
          disabled: change.disabled,
          password_hash,
          password_by_other: password_hash ? actor.userId !== userId && actor.role !== 'system' : undefined,
          version: before.version + 1,
        })
        .where('id', '=', userId)
        .returningAll()
        .executeTakeFirstOrThrow();
      await refuseNoAdministrator(tx);
      if (row.disabled || password_hash)
        await tx.deleteFrom('access_tokens').where('user_id', '=', userId).execute();
      await auditUser(tx, actor, 'change', userId, { fields: Object.keys(change) });
      return userOf(row);
    });
  },

  /** Changes the own password, by the present one; ends every session and token of the account. */
  async changeOwnPassword(userId: string, present: string, next: string, actor: Actor) {
    const before = await this.get(userId);
    if ((await this.signIn(before.name, present))?.id !== userId)
      throw new DoorpostError('invalid-value', 'The present password is not right', { field: 'present' });
    return this.change(userId, { password: next }, before.version, actor);
  },

  /** Ends every session, token and feed of an account: its provider gives it no role any more, or its owner asked. */
  endSessions: (userId: string, why: 'role-withdrawn' | 'sign-out', actor: Actor) =>
    atomically(db, async (tx) => {
      const row = await tx
        .updateTable('users')
        .set((e) => ({ version: e('version', '+', 1) }))
        .where('id', '=', userId)
        .returningAll()
        .executeTakeFirstOrThrow();
      await tx.deleteFrom('access_tokens').where('user_id', '=', userId).execute();
      await auditUser(tx, actor, why, userId, {});
      return userOf(row);
    }),

  /** The user when name and password fit, else null; takes as long for an unknown name. */
  async signIn(name: string, password: string) {
    const row = await db
      .selectFrom('users')
      .selectAll()
      .where('name', '=', name.toLowerCase())
      .executeTakeFirst();
    decoy ??= hashing(() => hash(randomUUID()));
    const known = row?.password_hash ?? (await decoy);
    const fits = await hashing(() => verify(known, password.slice(0, 200)));
    return row?.password_hash && fits && !row.disabled ? userOf(row) : null;
  },

  /** The account of this OpenID subject, made on first sight with this role; its role follows the provider. */
  fromOidc: (subject: { issuer: string; subject: string; name: string; displayName: string; role: Role }) =>
    atomically(db, async (tx) => {
      const known = await tx
        .selectFrom('users')
        .selectAll()
        .where('oidc_issuer', '=', subject.issuer)
        .where('oidc_subject', '=', subject.subject)
        .forUpdate()
        .executeTakeFirst();
      if (known) {
        const changed = known.role !== subject.role;
        const row = await tx
          .updateTable('users')
          .set({
            role: subject.role,
            display_name: subject.displayName,
            // Another role ends what was begun with the one before.
            version: known.version + (changed ? 1 : 0),
          })
          .where('id', '=', known.id)
          .returningAll()
          .executeTakeFirstOrThrow();
        const actor = { userId: row.id, name: row.name, role: row.role };
        if (changed) await auditUser(tx, actor, 'change', row.id, { fields: ['role'], role: row.role });
        return userOf(row);
      }
      const id = randomUUID();
      const taken = await tx
        .selectFrom('users')
        .select('id')
        .where('name', '=', subject.name.toLowerCase())
        .executeTakeFirst();
      const row = await tx
        .insertInto('users')
        .values({
          id,
          // A local account of the same name stays its owner's: names may repeat across providers.
          name: taken ? `${subject.name.toLowerCase()}-${id.slice(0, 8)}` : subject.name.toLowerCase(),
          display_name: subject.displayName,
          role: subject.role,
          password_hash: null,
          oidc_issuer: subject.issuer,
          oidc_subject: subject.subject,
        })
        .returningAll()
        .executeTakeFirstOrThrow();
      await auditUser(tx, { userId: id, name: row.name, role: row.role }, 'create', id, { role: row.role });
      return userOf(row);
    }),
});

const auditUser = (tx: Database, actor: Actor, action: AuditAction, userId: string, detail: AuditDetail) =>
  writeAudit(tx, actor, action, 'user', { userId, ...detail });

/** A service whose last administrator is disabled can never be administered again. */
async function refuseNoAdministrator(tx: Database): Promise<void> {
  const left = await tx
    .selectFrom('users')
    .select('id')
    .where('role', '=', 'administrator' satisfies Role)
    .where('disabled', '=', false)
    .executeTakeFirst();
  if (!left)
    throw new DoorpostError('invalid-value', 'The last administrator must stay one', { field: 'role' });
}

export const userOf = ({
  password_hash,
  oidc_issuer,
  oidc_subject,
  created_at,
  ...row
}: Selectable<Tables['users']>): User => ({ ...recordOf(row), hasPassword: password_hash !== null });
