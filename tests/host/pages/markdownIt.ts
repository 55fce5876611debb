/** As far as the tests use it; VS Code's preview of Markdown is made by it too. */
declare module 'markdown-it' {
  export default class MarkdownIt {
    constructor(options: { readonly html: boolean });
    render(markdown: string): string;
  }
}
