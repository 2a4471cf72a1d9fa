#include "store/attachments.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <fstream>
#include <thread>

#include "base/error.hpp"
#include "store/temporary_folder.hpp"
#include "store/trouble.hpp"

namespace lynearm::store {
namespace {

using ::testing::ElementsAre;
using ::testing::IsEmpty;

std::vector<std::uint8_t> bytes(const std::string& text) { return {text.begin(), text.end()}; }

// FIPS 180-4's own examples, as NIST prints them for SHA-256 ("abc", and two blocks).
TEST(AttachmentsTest, TheHashIsThatOfTheStandard) {
  EXPECT_EQ(sha256(bytes("abc")),
            "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
  EXPECT_EQ(sha256(bytes("abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq")),
            "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1");
}

TEST(AttachmentsTest, AFileIsFoundByItsNameAndKeptOnce) {
  const test::TemporaryFolder folder;
  AttachmentFolder attachments(folder / "files");
  EXPECT_THAT(attachments.names(), IsEmpty());
  const std::string name = attachments.keep(bytes("a photograph"));
  EXPECT_EQ(attachments.keep(bytes("a photograph")), name);
  EXPECT_EQ(attachments.find(name), bytes("a photograph"));
  EXPECT_THAT(attachments.names(), ElementsAre(name));
  // Nothing is left beside it.
  std::size_t files = 0;
  for (const auto& one : std::filesystem::recursive_directory_iterator(folder.path())) {
    files += one.is_regular_file() ? 1 : 0;
  }
  EXPECT_EQ(files, 1U);
}

TEST(AttachmentsTest, ANameThatIsNoneLeadsNowhere) {
  const test::TemporaryFolder folder;
  AttachmentFolder attachments(folder / "files");
  for (const std::string& name : {std::string(), std::string("../house.db"),
                                  std::string(64, 'G'), std::string(64, '0')}) {
    EXPECT_EQ(attachments.find(name), std::nullopt) << name;
  }
}

TEST(AttachmentsTest, EmptyAndTooLargeAreRefused) {
  const test::TemporaryFolder folder;
  AttachmentFolder attachments(folder / "files");
  EXPECT_THROW(attachments.keep({}), base::InputError);
  std::vector<std::uint8_t> large(most_attachment_bytes + 1);
  EXPECT_THROW(attachments.keep(large), base::InputError);
  large.pop_back();
  EXPECT_EQ(attachments.find(attachments.keep(large))->size(), most_attachment_bytes);
}

TEST(AttachmentsTest, ASpoiledFileIsToldAndMendedByKeepingItAgain) {
  const test::TemporaryFolder folder;
  AttachmentFolder attachments(folder / "files");
  const std::string name = attachments.keep(bytes("a photograph"));
  std::ofstream(folder / "files" / name.substr(0, 2) / name) << "a photogravh";
  try {
    static_cast<void>(attachments.find(name));
    FAIL();
  } catch (const Trouble& trouble) {
    EXPECT_EQ(trouble.kind(), Trouble::Kind::damaged);
  }
  attachments.keep(bytes("a photograph"));
  EXPECT_EQ(attachments.find(name), bytes("a photograph"));
}

TEST(AttachmentsTest, ManyThreadsKeepTheSameFileAtOnce) {
  const test::TemporaryFolder folder;
  AttachmentFolder attachments(folder / "files");
  std::vector<std::thread> threads;
  for (int i = 0; i < 6; ++i) {
    threads.emplace_back([&] {
      for (int n = 0; n < 5; ++n) attachments.keep(bytes("file " + std::to_string(n)));
    });
  }
  for (std::thread& thread : threads) thread.join();
  EXPECT_EQ(attachments.names().size(), 5U);
}

}  // namespace
}  // namespace lynearm::store
