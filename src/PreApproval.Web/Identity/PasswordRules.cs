using Microsoft.AspNetCore.Identity;
using PreApproval.Procedures.Accounts;

namespace PreApproval.Web.Identity;

/// <summary>
/// Length counts, composition does not (NIST SP 800-63B-4, 3.1.1.2; ASVS 5.0.0, 6.2): at least 15 and at most 128 characters,
/// not a well-known phrase, not made of words of this place or of the account's own name.
/// </summary>
public sealed class PasswordRules : IPasswordValidator<Account>
{
    public const int Shortest = 15;

    public const int Longest = 128;

    // From memory: phrases of 15 characters and more that appear in public lists of leaked passwords.
    private static readonly HashSet<string> WellKnown = new(StringComparer.Ordinal)
    {
        "passwordpassword", "password1234567", "password12345678", "123456789012345", "1234567890123456", "12345678901234567890",
        "qwertyuiopasdfg", "qwertyuiopasdfgh", "qwertyuiopasdfghjkl", "1q2w3e4r5t6y7u8i", "1q2w3e4r5t6y7u8i9o0p", "1qaz2wsx3edc4rfv",
        "qazwsxedcrfvtgb", "zaq12wsxcde34rfv", "abcdefghijklmno", "abcdefghijklmnop", "abcdefghijklmnopqrstuvwxyz", "correcthorsebatterystaple",
        "letmeinletmeinletmein", "iloveyouiloveyou", "thequickbrownfox", "tobeornottobe12", "administrator123", "welcomewelcome1",
        "changemechangeme", "passw0rdpassw0rd", "trustno1trustno1", "sunshinesunshine", "princessprincess", "footballfootball",
    };

    private static readonly string[] ContextWords = ["preapproval", "procedure", "chemistry", "laboratory", "chemist", "password", "approval", "reviewer"];

    public Task<IdentityResult> ValidateAsync(UserManager<Account> manager, Account user, string? password)
    {
        ArgumentNullException.ThrowIfNull(user);
        string? fault = FaultOf(password ?? "", user.UserName ?? "", user.DisplayName);
        return Task.FromResult(fault is null ? IdentityResult.Success : IdentityResult.Failed(new IdentityError { Code = "Password", Description = fault }));
    }

    /// <summary>What is wrong with a password, in words, or null.</summary>
    public static string? FaultOf(string password, string userName, string displayName)
    {
        ArgumentNullException.ThrowIfNull(password);
        ArgumentNullException.ThrowIfNull(userName);
        ArgumentNullException.ThrowIfNull(displayName);
        if (password.Length < Shortest)
        {
            return $"Use at least {Shortest} characters; a sentence of a few words is good.";
        }

        if (password.Length > Longest)
        {
            return $"Use at most {Longest} characters.";
        }

        string plain = Plain(password);
        if (WellKnown.Contains(plain) || password.Distinct().Count() < 5)
        {
            return "This password is well known or repeats itself. Choose another.";
        }

        // What is left without the words anybody would try first must still be long enough to be guessed slowly.
        string rest = plain;
        foreach (string word in ContextWords.Append(Plain(userName)).Concat(displayName.Split(' ').Select(Plain)).Where(w => w.Length >= 3).OrderByDescending(w => w.Length))
        {
            rest = rest.Replace(word, "", StringComparison.Ordinal);
        }

        return rest.Length < 8 ? "Apart from the name of the account and words of this application too little is left. Choose another." : null;
    }

    private static string Plain(string text) => string.Concat(text.ToLowerInvariant().Where(char.IsLetterOrDigit));
}
