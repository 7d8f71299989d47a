namespace PreApproval.Documents.Reading;

/// <summary>How long a text may be (in Unicode characters) and whether it may have line breaks.</summary>
internal readonly record struct TextLimit(int Most, bool ManyLines)
{
    public static TextLimit Identifier { get; } = new(64, false);

    public static TextLimit Line { get; } = new(300, false);

    /// <summary>A remark of a few sentences.</summary>
    public static TextLimit Note { get; } = new(2_000, true);

    public static TextLimit Structure { get; } = new(2_000, false);

    public static TextLimit Paragraphs { get; } = new(8_000, true);
}
