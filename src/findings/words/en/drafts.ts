/** What stands against an edit of a draft. */
export const drafts = {
  'drafts.noEdit': 'it is no edit',
  'drafts.noPath': 'the path cannot be read',
  'drafts.noPlace': 'the list has no such place',
  'drafts.noList': 'there is no list at this path',
  'drafts.notThere': 'there is nothing at this path',
  'drafts.holdsText': 'what holds it is text, not fields',
  'drafts.tooDeep': 'the path is too deep',
  'drafts.forbidden': 'the path has a name that is not allowed',
} as const;
