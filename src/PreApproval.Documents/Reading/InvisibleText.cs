using System.Globalization;
using System.Text;

namespace PreApproval.Documents.Reading;

/// <summary>Characters that nobody sees: direction marks and the like make one text look like another.</summary>
public static class InvisibleText
{
    /// <summary>True for Unicode category Cf without the joiners U+200C and U+200D, which belong to the spelling of some scripts.</summary>
    public static bool Has(Rune rune) => Rune.GetUnicodeCategory(rune) == UnicodeCategory.Format && rune.Value is not (0x200C or 0x200D);
}
