import { createHash } from "node:crypto";
import MailComposer from "nodemailer/lib/mail-composer";

type Mailbox = { readonly name: string; readonly address: string };

/** Content of a mail before it is serialised. */
export type Draft = {
  readonly from: Mailbox;
  readonly to?: Mailbox;
  readonly subject: string;
  readonly lines: readonly string[];
  /** Day of issue, YYYY-MM-DD. */
  readonly issued: string;
  readonly mark: string;
  readonly attachment: { readonly name: string; readonly pdf: Uint8Array };
};

/**
 * Serialises an unsent message by RFC 5322 and MIME with its PDF attached; mail programs open it as a draft (`X-Unsent`). The
 * bytes are deterministic: its date is the day of issue, its id and boundaries are a hash of its content.
 */
export function serializeDraft({ from, to, subject, lines, issued, mark, attachment }: Draft): Promise<Uint8Array> {
  const id = createHash("sha256")
    .update(JSON.stringify([from, to, subject, lines, issued, mark]))
    .update(attachment.pdf)
    .digest("hex")
    .slice(0, 32);
  return new MailComposer({
    from: mailbox(from),
    ...(to ? { to: mailbox(to) } : {}),
    subject: oneLine(subject),
    date: new Date(`${issued}T12:00:00Z`),
    messageId: `<${id}@${from.address.split("@")[1]}>`,
    headers: { "X-Unsent": "1" },
    text: `${lines.map(oneLine).join("\r\n")}\r\n`,
    attachments: [
      {
        filename: attachment.name,
        contentType: "application/pdf",
        content: Buffer.from(attachment.pdf),
      },
    ],
    baseBoundary: id,
    newline: "\r\n",
    disableFileAccess: true,
    disableUrlAccess: true,
  } as ConstructorParameters<typeof MailComposer>[0])
    .compile()
    .build();
}

const mailbox = ({ name, address }: Mailbox) => ({ name: oneLine(name), address });
const oneLine = (text: string) => text.replace(/\s+/g, " ").trim();
