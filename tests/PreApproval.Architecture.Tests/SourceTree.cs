using System.Reflection.Metadata;
using System.Reflection.PortableExecutable;
using System.Xml.Linq;
using PreApproval.Testing;

namespace PreApproval.Architecture.Tests;

/// <summary>A project file and what it references.</summary>
/// <param name="Name">Its file name without extension.</param>
/// <param name="Folder">Where it lies, absolute.</param>
/// <param name="Projects">Names of the projects it references.</param>
/// <param name="ProjectPaths">The same as absolute paths.</param>
/// <param name="Others">Packages, assemblies and frameworks it references by its own file.</param>
internal sealed record ProjectFile(string Name, string Folder, IReadOnlyList<string> Projects, IReadOnlyList<string> ProjectPaths, IReadOnlyList<string> Others);

/// <summary>The repository as it lies on disk, and the assemblies built from it.</summary>
internal static class SourceTree
{
    public static string Root { get; } = RepositoryFolder.Path;

    public static IReadOnlyList<ProjectFile> Sources { get; } = Projects("src");

    public static IReadOnlyList<ProjectFile> Tests { get; } = Projects("tests");

    /// <summary>Files with one of the extensions below a folder, without what a build leaves there.</summary>
    public static IReadOnlyList<string> Files(string folder, params string[] extensions) =>
    [
        .. Directory.EnumerateFiles(folder, "*", SearchOption.AllDirectories)
            .Where(file => extensions.Contains(Path.GetExtension(file), StringComparer.Ordinal))
            .Where(file => !Path.GetRelativePath(folder, file).Split(Path.DirectorySeparatorChar).Any(part => part is "bin" or "obj"))
            .Order(StringComparer.Ordinal),
    ];

    public static string Relative(string file) => Path.GetRelativePath(Root, file);

    /// <summary>Full names of the types of other assemblies that an assembly uses, each with the name of its assembly.</summary>
    public static IReadOnlyList<(string Assembly, string Type)> UsedTypes(string assembly)
    {
        using var stream = File.OpenRead(Path.Combine(AppContext.BaseDirectory, assembly + ".dll"));
        using var image = new PEReader(stream);
        MetadataReader metadata = image.GetMetadataReader();
        return
        [
            .. metadata.TypeReferences.Select(metadata.GetTypeReference)
                .Where(type => type.ResolutionScope.Kind == HandleKind.AssemblyReference)
                .Select(type => (
                    metadata.GetString(metadata.GetAssemblyReference((AssemblyReferenceHandle)type.ResolutionScope).Name),
                    $"{metadata.GetString(type.Namespace)}.{metadata.GetString(type.Name)}")),
        ];
    }

    private static ProjectFile[] Projects(string folder) =>
        [.. Files(Path.Combine(Root, folder), ".csproj").Select(Read)];

    private static ProjectFile Read(string file)
    {
        var project = XDocument.Load(file);
        string folder = Path.GetDirectoryName(file)!;
        string[] references = [.. Includes(project, "ProjectReference").Select(path => Path.GetFullPath(Path.Combine(folder, path.Replace('\\', '/'))))];
        string[] others = [.. Includes(project, "PackageReference"), .. Includes(project, "Reference"), .. Includes(project, "FrameworkReference")];
        return new ProjectFile(Path.GetFileNameWithoutExtension(file), folder, [.. references.Select(path => Path.GetFileNameWithoutExtension(path))], references, others);
    }

    private static IEnumerable<string> Includes(XDocument project, string item) =>
        project.Descendants().Where(element => string.Equals(element.Name.LocalName, item, StringComparison.Ordinal)).Select(element => (string?)element.Attribute("Include") ?? string.Empty);
}
