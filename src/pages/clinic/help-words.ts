/** Whose day a page of help describes. */
export const readers = ['clinician', 'scheduler', 'family', 'administrator', 'auditor'] as const;
export type Reader = (typeof readers)[number];

export interface HelpText {
  readonly title: string;
  readonly picture: { readonly file: string; readonly shows: string } | null;
  readonly steps: readonly { readonly task: string; readonly how: string }[];
}

/** One screen a reader: the day's tasks in the order in which they come. */
export const helpTexts: Readonly<Record<Reader, HelpText>> = {
  clinician: {
    title: 'Help for clinicians',
    picture: { file: '1-child.png', shows: 'A child with the device that gives out first' },
    steps: [
      {
        task: 'Start with Today',
        how: 'It shows who comes today and tomorrow, who has to be seen at once, and your own list with the most harmful wait first. Search takes names in any order, initials or a birth date.',
      },
      {
        task: 'Record the visit',
        how: 'On the child: Enter a visit. Sizes, the look at the skin and your judgement of each device are saved together. A reading that looks like a slip is asked about before it is saved. "Fits well" means: on that day it was not beyond use, whatever the usual limit says.',
      },
      {
        task: 'Read the action',
        how: 'Each device card says what to do and why. "Check" comes with the room in mm at which to cast that day. Dates rest on what was measured; they do not move because a week has passed.',
      },
      {
        task: 'Cast the next one',
        how: 'From the device card: family, sides and built-in room are carried over. When it is delivered and fitted, record that: the earlier one can be retired in the same step.',
      },
      {
        task: 'Before you rely on the defaults',
        how: 'Read Fit rules, set the limits of your clinic with a reason, and sign on Defaults to sign. Pain, a blister, or redness that does not fade outranks every date.',
      },
    ],
  },
  scheduler: {
    title: 'Help for schedulers',
    picture: { file: '4-recall.png', shows: 'The recall list' },
    steps: [
      {
        task: 'Ring from the top',
        how: 'See now and repair come first, then the rest by the harm of waiting. What to say stands beside each child. You see no diagnosis.',
      },
      {
        task: 'Note what came of it',
        how: 'Rang, left a message, booked for a day, declined, not brought, moved away: one key or one tap each, and undo takes back the last. Letters as keys can be switched off above the list.',
      },
      {
        task: 'Keep the weeks true',
        how: 'Enter casting slots, holidays and closed days. A new list then finds another week for who has none, and leaves everybody else where they are.',
      },
      {
        task: 'When a parent speaks of pain, a blister, swelling or a mark that stays',
        how: 'Have the device taken off as the sentence says (a hip orthosis only when the clinic says so), and put the call through to a clinician now. No date on the list answers this.',
      },
      {
        task: 'Print or export',
        how: 'The whole list prints; letters leave out who is booked or has declined; calendar and table carry the same dates; your calendar program can follow the list by an address of your own (More, Your calendar).',
      },
    ],
  },
  family: {
    title: 'What families see',
    picture: { file: '5-family.png', shows: 'The family’s sheet' },
    steps: [
      {
        task: 'The sheet and the link',
        how: 'A clinician prints the sheet or gives a link that ends on the day it shows and can be withdrawn. It holds the growth chart, how long each device should fit, and whom to call.',
      },
      {
        task: 'Skin comes first',
        how: 'The sheet says how to look at the skin, and what redness, swelling, numbness or other signs of that device mean. It never says that a review can be left out.',
      },
      {
        task: 'Languages',
        how: 'A wording that no native speaker has checked says so.',
      },
    ],
  },
  administrator: {
    title: 'Help for administrators',
    picture: null,
    steps: [
      {
        task: 'Bring in the records',
        how: 'Import takes spreadsheets as the clinic keeps them: nothing is written before you have seen what was understood, what is asked and what was refused.',
      },
      {
        task: 'Accounts',
        how: 'Users: one of four roles each. A person who leaves is switched off, not deleted; the access log keeps the name.',
      },
      {
        task: 'Clinic',
        how: 'Settings holds the name and telephone that families read, and how much risk a late cast may carry. A clinician signs that on Defaults to sign.',
      },
      {
        task: 'Who saw this child?',
        how: 'Access log, by child, person or day: pages, lists, files, letters and runs. Erasing a child is for good and needs a reason.',
      },
    ],
  },
  auditor: {
    title: 'Help for auditors',
    picture: null,
    steps: [
      {
        task: 'Ask the access log',
        how: 'By child, person, action or day. Rows cannot be changed or removed, and reading the log leaves a row as well.',
      },
      {
        task: 'Read the rules',
        how: 'Fit rules and Defaults to sign show who set and signed what, when and why.',
      },
    ],
  },
};
