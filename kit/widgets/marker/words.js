// The three windows by name, letter and meaning.

export const WINDOWS = ["baseline", "perturbation", "response"];
export const LETTERS = ["B", "P", "R"];
export const MEANING = ["the quiet time just before the change", "the change itself", "the time in which we read the result"];
